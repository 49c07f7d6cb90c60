"""Days on which the workshop is open: all but Saturdays, Sundays and its closed days."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date, timedelta

WORKING_DAYS = 5
"""Saturdays and Sundays are always closed."""
ONE_DAY = timedelta(days=1)


def monday_of(day: date) -> date:
    return day - timedelta(days=day.weekday())


def is_open(day: date, closed_days: Collection[date]) -> bool:
    return day.weekday() < WORKING_DAYS and day not in closed_days


def open_days_of_week(monday: date, closed_days: Collection[date]) -> tuple[date, ...]:
    days = (monday + index * ONE_DAY for index in range(WORKING_DAYS))
    return tuple(day for day in days if is_open(day, closed_days))


def open_day_from(day: date, closed_days: Collection[date]) -> date:
    """The day itself if it is open, else the first open day after it."""
    while not is_open(day, closed_days):
        day += ONE_DAY
    return day


def open_day_before(day: date, closed_days: Collection[date]) -> date:
    """The last open day before another."""
    day -= ONE_DAY
    while not is_open(day, closed_days):
        day -= ONE_DAY
    return day


def add_open_days(day: date, count: int, closed_days: Collection[date]) -> date:
    """The open day that lies `count` open days after `day`."""
    for _ in range(count):
        day = open_day_from(day + ONE_DAY, closed_days)
    return day
