"""A day and a figure as they are said in a sentence of the bench."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.said_days import MONTHS as LONG

MONTHS = (
    to_say("Jan"),
    to_say("Feb"),
    to_say("Mar"),
    to_say("Apr"),
    to_say("May"),
    to_say("Jun"),
    to_say("Jul"),
    to_say("Aug"),
    to_say("Sep"),
    to_say("Oct"),
    to_say("Nov"),
    to_say("Dec"),
)


def day(on: date) -> str:
    """Day, month and year.

    >>> day(date(2026, 12, 3))
    '3 Dec 2026'
    """
    return say("{day} {month} {year}", day=on.day, month=say(MONTHS[on.month - 1]), year=on.year)


def short_day(on: date) -> str:
    """Day and month, short.

    >>> short_day(date(2026, 12, 3))
    '3 Dec'
    """
    return say("{day} {month}", day=on.day, month=say(MONTHS[on.month - 1]))


def said_day_and_month(on: date) -> str:
    """Day and month.

    >>> said_day_and_month(date(2026, 12, 3))
    '3 December'
    """
    return say("{day} {month}", day=on.day, month=say(LONG[on.month - 1]))


def day_of_month(on: date) -> str:
    """Day and month, the day with two digits.

    >>> day_of_month(date(2026, 12, 3))
    '03 December'
    """
    return say("{day} {month}", day=f"{on:%d}", month=say(LONG[on.month - 1]))


def long_day(on: date) -> str:
    """Day, month and year, the day with two digits.

    >>> long_day(date(2026, 12, 3))
    '03 December 2026'
    """
    return say("{day} {month} {year}", day=f"{on:%d}", month=say(LONG[on.month - 1]), year=on.year)


UNITS = {"percent": "%", "degrees": to_say("degrees"), "ratio": to_say("of new"), "to 1": to_say("to 1")}


def unit_in_words(unit: str) -> str:
    """A unit as it is printed.

    >>> unit_in_words("mm"), unit_in_words("degrees")
    ('mm', 'degrees')
    """
    return say(UNITS.get(unit, unit)) if unit else ""


def exact(figure: Decimal) -> str:
    """The figure as it stands, with the reader's decimal mark and no thousands.

    >>> exact(Decimal("1250.50"))
    '1250.50'
    """
    mark = say_figure(0.5, 1)[1]
    return f"{figure:f}".replace(".", mark)
