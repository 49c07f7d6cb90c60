"""A discount as negative lines, so that each tax rate bears its share of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from quotes.calc.money.tax import TaxedLine, tax_of
from quotes.calc.shop import TaxCode


def discount_amount(net: Decimal, pct: Decimal, decimals: int) -> Decimal:
    """`pct` per cent of a net, rounded half-up."""
    return round_half_up(net * pct / HUNDRED, decimals)


def discount_lines(
    lines: Iterable[TaxedLine], amount: Decimal, tax_codes: Mapping[str, TaxCode], decimals: int
) -> tuple[TaxedLine, ...]:
    """Negative nets that add up to `amount`, one for each (category, rate), in proportion to its net.

    What rounding leaves over goes to the largest group. Groups without a positive net bear nothing. Raises
    ValueError where the amount is negative or more than there is to take it from.
    """
    groups = [group for group in tax_of(lines, tax_codes, decimals) if group.taxable > ZERO]
    whole = sum((group.taxable for group in groups), ZERO)
    if not ZERO <= amount <= whole:
        raise ValueError(f"a discount of {amount} can't be taken from {whole}")
    if amount == ZERO:
        return ()
    shares = [round_half_up(amount * group.taxable / whole, decimals) for group in groups]
    largest = max(range(len(groups)), key=lambda place: groups[place].taxable)
    shares[largest] += amount - sum(shares, ZERO)
    return tuple((group.code, -share) for group, share in zip(groups, shares, strict=True) if share)
