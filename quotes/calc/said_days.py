"""A day and a month in a sentence, in the reader's language."""

from __future__ import annotations

from datetime import date

from catalogue.calc.said import say, to_say

MONTHS = (
    to_say("January"),
    to_say("February"),
    to_say("March"),
    to_say("April"),
    to_say("May"),
    to_say("June"),
    to_say("July"),
    to_say("August"),
    to_say("September"),
    to_say("October"),
    to_say("November"),
    to_say("December"),
)
WEEKDAYS = (
    to_say("Monday"),
    to_say("Tuesday"),
    to_say("Wednesday"),
    to_say("Thursday"),
    to_say("Friday"),
    to_say("Saturday"),
    to_say("Sunday"),
)


def said_day(on: date) -> str:
    """Day, month and year.

    >>> said_day(date(2026, 11, 5))
    '5 November 2026'
    """
    return say("{day} {month} {year}", day=on.day, month=say(MONTHS[on.month - 1]), year=on.year)


def said_month(of: date) -> str:
    """Month and year.

    >>> said_month(date(2026, 11, 1))
    'November 2026'
    """
    return say("{month} {year}", month=say(MONTHS[of.month - 1]), year=of.year)


def said_weekday(on: date) -> str:
    """The day of the week.

    >>> said_weekday(date(2026, 11, 27))
    'Friday'
    """
    return say(WEEKDAYS[on.weekday()])
