"""The bench clock: how long a run was, and whether somebody forgot to stop it."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from catalogue.calc.money import round_half_up

LONGEST_HOURS = 10
"""A run longer than this was forgotten, or was not one piece of work; common practice, no source."""
SECONDS_AN_HOUR = Decimal(3600)


def hours_between(started: datetime, stopped: datetime) -> Decimal:
    """Hours of a run at two decimals, half up. ValueError where it would stop before it starts.

    >>> from datetime import datetime
    >>> hours_between(datetime(2027, 3, 1, 8, 0), datetime(2027, 3, 1, 9, 45))
    Decimal('1.75')
    """
    if stopped < started:
        raise ValueError(f"a clock started at {started} can't be stopped at {stopped}")
    return round_half_up(Decimal((stopped - started).total_seconds()) / SECONDS_AN_HOUR)


def left_running(started: datetime, now: datetime) -> bool:
    """Whether a clock was forgotten: it has run past midnight, or for longer than a spell of work.

    Where the machine's own clock was set back behind its start, nobody knows how long it ran: the same. Both
    moments in the workshop's own time zone, for midnight is the workshop's.

    >>> from datetime import datetime
    >>> left_running(datetime(2027, 3, 1, 9, 0), datetime(2027, 3, 1, 8, 0))
    True
    """
    return now < started or _days(started, now) > 0 or hours_between(started, now) > LONGEST_HOURS


def _days(started: datetime, now: datetime) -> int:
    first: date = started.date()
    return (now.date() - first).days
