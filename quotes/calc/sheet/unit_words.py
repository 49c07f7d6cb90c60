"""Figures as a reader writes them, and an amount of service with its unit, for one and for many."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.said import say, say_count, say_figure


def with_unit(figure: str, unit: str, count: int) -> str:
    """The figure with the word for its unit. KeyError for a unit that there is not.

    >>> with_unit("1", "mi", 1), with_unit("2,000", "mi", 2000), with_unit("12", "km", 12)
    ('1 mile', '2,000 miles', '12 km')
    """
    if unit == "mi":
        return say_count("{figure} mile", "{figure} miles", count, figure=figure)
    if unit == "h":
        return say_count("{figure} hour", "{figure} hours", count, figure=figure)
    if unit == "runs":
        return say_count("{figure} run", "{figure} runs", count, figure=figure)
    if unit == "km":
        return say("{figure} km", figure=figure)
    raise KeyError(unit)


def plain_figure(value: float | Decimal) -> str:
    """A figure with the decimals that it needs.

    >>> plain_figure(Decimal("7.50")), plain_figure(1.0)
    ('7.5', '1')
    """
    written = f"{Decimal(str(value)).normalize():f}"
    return say_figure(value, len(written.partition(".")[2]))


def as_written(value: Decimal) -> str:
    """A figure with the decimals that it was given with.

    >>> as_written(Decimal("7.50"))
    '7.50'
    """
    return say_figure(value, len(f"{value:f}".partition(".")[2]))
