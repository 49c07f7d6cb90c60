"""Sums of money that a database has added up, as they are."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up

DECIMALS = 3
"""Of the sums in the books."""


def exact(total: Decimal | None) -> Decimal:
    """A sum without the trace that SQLite leaves far behind its last decimal: it adds in floating point.

    Exact up to a billion: a float carries fifteen digits.
    """
    return round_half_up(total or ZERO, DECIMALS)
