"""What the lines of a supplier's bill cost the shop: tax that nobody gives back is part of it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up


def costs_with_tax(nets: Sequence[Decimal], tax: Decimal, decimals: int) -> tuple[Decimal, ...]:
    """The nets with their shares of the tax, by size; what rounding leaves over goes to the largest line."""
    if not tax:
        return tuple(nets)
    size = sum((abs(net) for net in nets), ZERO)
    shares = [round_half_up(tax * abs(net) / size, decimals) if size else ZERO for net in nets]
    largest = max(range(len(nets)), key=lambda index: abs(nets[index]))
    shares[largest] += tax - sum(shares, ZERO)
    return tuple(net + share for net, share in zip(nets, shares, strict=True))
