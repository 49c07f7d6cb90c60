"""The months of the books: what was written in each, and whether it is closed."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.db.models import Count, Q, Sum
from django.db.models.functions import TruncMonth

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
    """The oldest month that is over, has entries and is not closed."""
    waiting = [month.first for month in months(on) if month.over and month.entries and month.lock is None]
    return min(waiting, default=None)


def _counted() -> list[Mapping[str, Any]]:
    rows = JournalEntry.objects.annotate(month=TruncMonth("on")).order_by().values("month")
    waiting = Count("pk", filter=Q(batch=None))
    counted: Any = rows.annotate(entries=Count("pk"), total=Sum("total"), waiting=waiting)
    return list(counted)


def _back_to(begun: date | None, on: date) -> Iterator[date]:
    month = on.replace(day=1)
    while begun is not None and month >= begun:
        yield month
        month = date(month.year - (month.month == 1), (month.month - 2) % 12 + 1, 1)
