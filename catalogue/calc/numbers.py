"""Figures as people write them: no trailing noughts, thousands apart."""

from __future__ import annotations

from decimal import Decimal

THOUSANDS_FROM = 10_000
"""Below, a comma only disturbs: 4500 miles, 11,500 revs."""


def figure(value: float | Decimal | int | None) -> str:
    """The number without trailing noughts; empty for None."""
    if value is None:
        return ""
    exact = value if isinstance(value, Decimal) else Decimal(str(value))
    plain = exact.normalize()
    return f"{plain:,f}" if abs(plain) >= THOUSANDS_FROM else f"{plain:f}"
