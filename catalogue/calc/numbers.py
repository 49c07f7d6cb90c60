"""Figures as people write them: no trailing noughts, thousands apart."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.said import say_figure

THOUSANDS_FROM = 10_000
"""Below, a comma only disturbs: 4500 miles, 11,500 revs."""


def figure(value: float | Decimal | int | None) -> str:
    """The number without trailing noughts; empty for None."""
    if value is None:
        return ""
    exact = value if isinstance(value, Decimal) else Decimal(str(value))
    plain = exact.normalize()
    return f"{plain:,f}" if abs(plain) >= THOUSANDS_FROM else f"{plain:f}"


def said_figure(value: float | Decimal) -> str:
    """The same as the reader's language writes it."""
    if abs(float(value)) >= THOUSANDS_FROM:
        return say_figure(value, len(figure(value).partition(".")[2]))
    point = say_figure(0.5, 1)[1]
    return figure(value).replace(".", point)
