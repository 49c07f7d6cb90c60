"""The months of the books: what was written in each, and whether it is closed."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import groupby
from typing import Any

from django.db.models import Count, Q, Sum

from catalogue.calc.money import ZERO
from quotes.models import JournalEntry, MonthLock
from quotes.queries.books.exact import exact


@dataclass(frozen=True, slots=True)
class Month:
    """One month. `lock` is that which stands; `opened` those that were lifted, the newest first."""

    first: date
    entries: int
    total: Decimal
    not_exported: int
    lock: MonthLock | None
    opened: tuple[MonthLock, ...]
    over: bool
    """Whether its last day has passed."""

    @property
    def last(self) -> date:
        return self.first.replace(day=monthrange(self.first.year, self.first.month)[1])

    @property
    def key(self) -> str:
        """Year and number, as a form sends it."""
        return f"{self.first:%Y-%m}"


def months(on: date) -> list[Month]:
    """Every month from the first entry to today, the newest first; two queries."""
    told = {row["month"]: row for row in _counted()}
    locks = list(MonthLock.objects.order_by("-locked_at", "-pk"))
    begun = min([*told, *(lock.month for lock in locks)], default=None)
    return [_month(first, told.get(first, {}), locks, on) for first in _back_to(begun, on)]


def _month(first: date, told: Mapping[str, Any], locks: list[MonthLock], on: date) -> Month:
    own = [lock for lock in locks if lock.month == first]
    return Month(
        first=first,
        entries=told.get("entries", 0),
        total=exact(told.get("total")),
        not_exported=told.get("waiting", 0),
        lock=next((lock for lock in own if lock.opened_at is None), None),
        opened=tuple(lock for lock in own if lock.opened_at is not None),
        over=first < on.replace(day=1),
    )


def month_to_close(on: date) -> date | None:
    """The oldest month that is over, has entries and is not closed; three queries."""
    closed = set(MonthLock.objects.standing().values_list("month", flat=True))
    over = JournalEntry.objects.filter(on__lt=on.replace(day=1)).order_by("on")
    entries = over.values_list("on", flat=True)
    first = entries.first()
    if first is None:
        return None
    month = first.replace(day=1)
    while month in closed:
        month = _next(month)
    # Months are closed one after the other, so this is nearly always the one, and an index finds it.
    rest = entries.filter(on__gte=month)
    for each in sorted(one for one in closed if one > month):
        rest = rest.exclude(on__gte=each, on__lt=_next(each))
    day = rest.first()
    return day.replace(day=1) if day else None


def _next(month: date) -> date:
    return date(month.year + month.month // 12, month.month % 12 + 1, 1)


def _counted() -> Iterator[Mapping[str, Any]]:
    """By day and then added up: SQLite asks Python for the month of every row, and days are few."""
    rows = JournalEntry.objects.order_by("on").values("on")
    days = rows.annotate(entries=Count("pk"), sum=Sum("total"), waiting=Count("pk", filter=Q(batch=None)))
    for month, of_month in groupby(days, key=lambda row: row["on"].replace(day=1)):
        told = list(of_month)
        yield {
            "month": month,
            "entries": sum(row["entries"] for row in told),
            "total": sum((exact(row["sum"]) for row in told), ZERO),
            "waiting": sum(row["waiting"] for row in told),
        }


def _back_to(begun: date | None, on: date) -> Iterator[date]:
    month = on.replace(day=1)
    while begun is not None and month >= begun:
        yield month
        month = date(month.year - (month.month == 1), (month.month - 2) % 12 + 1, 1)
