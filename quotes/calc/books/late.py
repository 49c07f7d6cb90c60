"""Interest and storage as the signed terms ask for them: proposed as lines with their working, never added.

Interest is simple, actual/365, on what was open on each day, from the day after the days of grace. Its rate
and grace are those frozen into the invoice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say, say_count, say_figure
from quotes.calc.ask.request import Value
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.values import Late
from quotes.calc.said_days import said_day

DAYS_A_YEAR = 365
TIMES = "\N{MULTIPLICATION SIGN}"
MOST_STRETCHES = 4
"""A working with more stretches than that is said in short: the line has to stay readable."""
INTEREST, STORAGE = "interest", "storage"
"""Kinds of line, and what their keys begin with."""


class LateItem(Value):
    """An invoice that is late. `settled` are the days and sums that took something off it, in any order."""

    number: str
    due_on: date
    amount: Decimal
    """What was to be paid."""
    settled: tuple[tuple[date, Decimal], ...] = ()
    late: Late
    asked_up_to: date | None = None
    """Up to this day, included, interest has been invoiced already."""


class LateStretch(Value):
    """So much open for so many days."""

    amount: Decimal
    days: int


def stretches(item: LateItem, on: date) -> tuple[LateStretch, ...]:
    """What was open, and for how long, from the end of grace to `on`, that day included."""
    start = item.due_on + timedelta(days=item.late.after_days)
    if item.asked_up_to is not None:
        start = max(start, item.asked_up_to)
    # What was settled by the day on which the interest begins to run bears none.
    open_now = item.amount - sum((amount for day, amount in item.settled if day <= start), ZERO)
    found: list[LateStretch] = []
    for day, amount in sorted((day, amount) for day, amount in item.settled if start < day <= on):
        _stretch(found, open_now, (day - start).days)
        start, open_now = day, open_now - amount
    _stretch(found, open_now, (on - start).days)
    return tuple(found)


def _stretch(found: list[LateStretch], amount: Decimal, days: int) -> None:
    if amount > ZERO and days > 0:
        found.append(LateStretch(amount=amount, days=days))


def interest_key(number: str, on: date) -> str:
    """Key of the line that asks for interest on an invoice up to a day."""
    return f"{INTEREST}:{number}:{on.isoformat()}"


def interest_lines(
    items: Iterable[LateItem], on: date, decimals: int, tax_code: str
) -> tuple[DraftLine, ...]:
    """One proposed line for each invoice on which its own terms ask for interest up to `on`.

    The sum is rounded once, half up; its working stands in the note.
    """
    return tuple(line for item in items if (line := _interest(item, on, decimals, tax_code)))


def _interest(item: LateItem, on: date, decimals: int, tax_code: str) -> DraftLine | None:
    rate = item.late.rate_pct_a_year
    parts = stretches(item, on)
    exact = sum((part.amount * part.days for part in parts), ZERO) * rate / (100 * DAYS_A_YEAR)
    amount = round_half_up(exact, decimals)
    if amount <= ZERO:
        return None
    return DraftLine(
        key=interest_key(item.number, on),
        kind="interest",
        description=say(
            "Interest on {number}, which was to be paid by {day}",
            number=item.number,
            day=said_day(item.due_on),
        ),
        note=_working(parts, item.late, amount, decimals),
        quantity=Decimal(1),
        unit_price=amount,
        tax_code=tax_code,
    )


def _working(parts: Sequence[LateStretch], late: Late, amount: Decimal, decimals: int) -> str:
    """Such as: 1,000.00 for 31 days at 8 % a year: 1,000.00 times 31 ÷ 365 times 8 % = 6.79."""
    rate = f"{late.rate_pct_a_year.normalize():f} %"
    total = _money(amount, decimals)
    if len(parts) > MOST_STRETCHES:
        days = _days(sum(part.days for part in parts))
        return say(
            "What was open on each of {days} at {rate} a year = {total}.", days=days, rate=rate, total=total
        )
    sums = " + ".join(f"{_money(part.amount, decimals)} {TIMES} {part.days}" for part in parts)
    sums = f"({sums})" if len(parts) > 1 else sums
    told = {
        "parts": _stretches_said(parts, decimals),
        "rate": rate,
        "working": f"{sums} ÷ {DAYS_A_YEAR} {TIMES} {rate} = {total}",
    }
    if not late.after_days:
        return say("{parts} at {rate} a year: {working}.", **told)
    return say(
        "{parts} at {rate} a year, after {grace} of grace: {working}.", grace=_days(late.after_days), **told
    )


def _stretches_said(parts: Sequence[LateStretch], decimals: int) -> str:
    said = ""
    for part in parts:
        one = say("{amount} for {days}", amount=_money(part.amount, decimals), days=_days(part.days))
        said = say("{one} and {other}", one=said, other=one) if said else one
    return said


def storage_line(
    *,
    build: str,
    ready_on: date,
    on: date,
    free_days: int,
    a_day: Decimal,
    decimals: int,
    tax_code: str,
    asked_up_to: date | None = None,
) -> DraftLine | None:
    """Storage of a build from after its free days up to `on`, less what was asked for; None for none."""
    start = ready_on + timedelta(days=free_days)
    begins = max(start, asked_up_to) if asked_up_to else start
    days = (on - begins).days
    if days <= 0 or a_day <= ZERO:
        return None
    working = f"{days} {TIMES} {_money(a_day, decimals)} = {_money(days * a_day, decimals)}"
    return DraftLine(
        key=f"{STORAGE}:{build}:{on.isoformat()}",
        kind="storage",
        description=say("Storage, ready to be fetched since {day}", day=ready_on.isoformat()),
        note=_storage_note(
            begins if begins != start else None, days, (on - ready_on).days, free_days, working
        ),
        quantity=Decimal(days),
        unit="day",
        unit_price=a_day,
        tax_code=tax_code,
    )


def _storage_note(since: date | None, days: int, waited: int, free_days: int, working: str) -> str:
    """How the days were counted, from the end or from the day up to which it was asked for."""
    if since:
        return say(
            "{days} since {day}, up to which it was asked for: {working}.",
            days=_days(days),
            day=since.isoformat(),
            working=working,
        )
    if free_days:
        return say(
            "{days}, {free} of them free: {working}.",
            days=_days(waited),
            free=_days(free_days),
            working=working,
        )
    return f"{_days(waited)}: {working}."


def _days(count: int) -> str:
    return say_count("{count} day", "{count} days", count)


def _money(amount: Decimal, decimals: int) -> str:
    return say_figure(float(round_half_up(amount, decimals)), decimals)
