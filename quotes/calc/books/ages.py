"""What is owed, by how long it has been due: not yet, 1 to 30 days, 31 to 60, 61 to 90, and longer."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value

Age = Literal["not_due", "to_30", "to_60", "to_90", "over_90"]
BOUNDS: tuple[tuple[int, Age], ...] = ((0, "not_due"), (30, "to_30"), (60, "to_60"), (90, "to_90"))
"""Up to so many days past the day of payment, that day included."""


class OwedItem(Value):
    """One open item. `amount` is what is open of it, below nought where it is in the customer's favour."""

    customer_id: int
    customer: str
    number: str
    on: date
    due_on: date | None
    amount: Decimal

    @property
    def due(self) -> date:
        return self.due_on or self.on


class AgeRow(Value):
    """What one customer owes by age, and what he has in credit that settles none of it yet."""

    customer_id: int
    customer: str
    not_due: Decimal = ZERO
    to_30: Decimal = ZERO
    to_60: Decimal = ZERO
    to_90: Decimal = ZERO
    over_90: Decimal = ZERO
    credit: Decimal = ZERO
    """Below nought."""
    longest_days: int = 0

    @property
    def overdue(self) -> Decimal:
        return self.to_30 + self.to_60 + self.to_90 + self.over_90

    @property
    def total(self) -> Decimal:
        return self.not_due + self.overdue + self.credit


class AgedItems(Value):
    """The list of a day, those who are longest overdue first, and its foot."""

    on: date
    rows: tuple[AgeRow, ...]
    total: AgeRow


def days_past(due: date, on: date) -> int:
    """Days past the day of payment: 0 on that day, below nought before it."""
    return (on - due).days


def age_of(due: date, on: date) -> Age:
    """In which column something stands on a day that was to be paid by `due`."""
    past = days_past(due, on)
    return next((age for bound, age in BOUNDS if past <= bound), "over_90")


def aged(items: Iterable[OwedItem], on: date) -> AgedItems:
    """Each customer's open items by age; a credit stands apart, for it may be meant for any of them."""
    rows: dict[int, dict[str, Decimal]] = {}
    names: dict[int, str] = {}
    longest: dict[int, int] = {}
    for item in items:
        names[item.customer_id] = item.customer
        sums = rows.setdefault(item.customer_id, {})
        column = "credit" if item.amount < ZERO else age_of(item.due, on)
        sums[column] = sums.get(column, ZERO) + item.amount
        if item.amount > ZERO:
            past = days_past(item.due, on)
            longest[item.customer_id] = max(longest.get(item.customer_id, 0), past)
    made = [
        AgeRow(customer_id=key, customer=names[key], longest_days=longest.get(key, 0), **sums)
        for key, sums in rows.items()
        if any(sums.values())
    ]
    made.sort(key=lambda row: (-row.longest_days, row.customer))
    return AgedItems(on=on, rows=tuple(made), total=_total(made))


def _total(rows: Iterable[AgeRow]) -> AgeRow:
    columns = ("not_due", "to_30", "to_60", "to_90", "over_90", "credit")
    rows = list(rows)
    sums = {name: sum((getattr(row, name) for row in rows), ZERO) for name in columns}
    return AgeRow(
        customer_id=0, customer="", longest_days=max((r.longest_days for r in rows), default=0), **sums
    )
