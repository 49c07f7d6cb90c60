"""Bench hours as they are said: to one decimal, without a needless nought."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import round_half_up
from quotes.calc.bench.said import exact


def hours_in_words(hours: Decimal) -> str:
    """Hours to one decimal.

    >>> hours_in_words(Decimal("40.8400")), hours_in_words(Decimal("26.00")), hours_in_words(Decimal("300"))
    ('40.8', '26', '300')
    """
    said = f"{round_half_up(hours, 1):f}".removesuffix(".0")
    return exact(Decimal(said))
