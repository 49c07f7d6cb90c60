"""Money: one rounding function, and a taxed sum that can't exist unless net + tax = gross."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

ZERO = Decimal(0)
HUNDRED = Decimal(100)
"""By which a rate in per cent is divided."""


def round_half_up(amount: Decimal, decimals: int = 2) -> Decimal:
    """`amount` to `decimals` places, halves away from zero, as EN 16931 rounds money.

    This is the only place in the project that calls `quantize`. Nought has no sign: -0.004 is 0.00, which on
    paper must not read -0.00.
    """
    return amount.quantize(_smallest(decimals), rounding=ROUND_HALF_UP) + ZERO


@lru_cache(maxsize=16)
def _smallest(decimals: int) -> Decimal:
    """The smallest amount of so many decimals."""
    return Decimal(1).scaleb(-decimals)


@dataclass(frozen=True, slots=True)
class TaxedSum:
    """A sum before tax, its tax and the sum with tax, all in one currency."""

    net: Decimal
    tax: Decimal
    gross: Decimal

    def __post_init__(self) -> None:
        if self.net + self.tax != self.gross:
            raise ValueError(f"net {self.net} + tax {self.tax} is not gross {self.gross}")

    def __add__(self, other: TaxedSum) -> TaxedSum:
        return TaxedSum(self.net + other.net, self.tax + other.tax, self.gross + other.gross)


NOTHING = TaxedSum(ZERO, ZERO, ZERO)
