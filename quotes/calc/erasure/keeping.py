"""How long books have to be kept: to the end of a calendar year, so many years after their own."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date


def kept_until(day: date, years: int) -> date:
    """The last day on which what is of that day has to be kept."""
    return date(day.year + years, 12, 31)


def books_kept_until(days: Iterable[date], years: int) -> date | None:
    """Until when a customer's books are kept: as long as the youngest of them. None where there are none."""
    youngest = max(days, default=None)
    return None if youngest is None else kept_until(youngest, years)
