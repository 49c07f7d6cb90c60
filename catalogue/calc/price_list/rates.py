"""Which rate a sum in another currency is turned into the catalogue's own by."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Rate:
    """What one unit of `currency` costs from `day` on."""

    currency: str
    day: date
    rate: Decimal


def rate_on(rates: Iterable[Rate], currency: str, on: date) -> Rate | None:
    """The rate that was set last for that day or one before it; None where none was."""
    known = [one for one in rates if one.currency == currency and one.day <= on]
    return max(known, key=lambda one: one.day, default=None)
