"""Tax once for each (category, rate) on the summed net, as EN 16931 asks (BR-CO-17), and sums that agree.

A tax code has one component (value-added tax) or several on the same base (state and local sales tax): the
total is rounded once, half-up, and what the rounded components leave over goes to the first. Money is in the
shop's currency at `decimals` places.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, TaxedSum, round_half_up
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.shop import Shop, TaxCode

TaxedLine = tuple[str, Decimal]
"""A line's tax code and its net."""
GroupKey = tuple[str, Decimal]
"""Category and rate in per cent."""


class UnknownTaxCodeError(LookupError):
    """The workshop has no such tax code."""


def tax_of(
    lines: Iterable[TaxedLine], tax_codes: Mapping[str, TaxCode], decimals: int
) -> tuple[TaxGroup, ...]:
    """One group for each (category, rate) in the lines, in the order in which they first appear.

    Codes of one category and rate are taxed together. Raises UnknownTaxCodeError.
    """
    nets: dict[GroupKey, dict[str, Decimal]] = {}
    for code, net in lines:
        by_code = nets.setdefault(_key(code, tax_codes), {})
        by_code[code] = by_code.get(code, ZERO) + net
    return tuple(_group(by_code, tax_codes, decimals) for by_code in nets.values())


def _key(code: str, tax_codes: Mapping[str, TaxCode]) -> GroupKey:
    tax_code = tax_code_of(code, tax_codes)
    return tax_code.category, tax_code.rate_pct


def tax_code_of(code: str, tax_codes: Mapping[str, TaxCode]) -> TaxCode:
    """The tax code. Raises UnknownTaxCodeError, which names those there are."""
    try:
        return tax_codes[code]
    except KeyError:
        known = ", ".join(sorted(tax_codes)) or "none yet"
        raise UnknownTaxCodeError(f"the workshop has no tax code {code!r}; it has: {known}") from None


def _group(by_code: Mapping[str, Decimal], tax_codes: Mapping[str, TaxCode], decimals: int) -> TaxGroup:
    codes = [tax_codes[code] for code in by_code]
    taxable = sum(by_code.values(), ZERO)
    tax = round_half_up(taxable * codes[0].rate_pct / HUNDRED, decimals)
    return TaxGroup(
        code=codes[0].code,
        category=codes[0].category,
        rate_pct=codes[0].rate_pct,
        taxable=taxable,
        tax=tax,
        components=_components(by_code, tax_codes, tax, decimals),
        reason=" ".join(dict.fromkeys(code.reason for code in codes if code.reason)),
    )


def _components(
    by_code: Mapping[str, Decimal], tax_codes: Mapping[str, TaxCode], tax: Decimal, decimals: int
) -> tuple[tuple[str, Decimal, Decimal], ...]:
    """Name, rate and tax of each component; they add up to `tax`."""
    exact: dict[tuple[str, Decimal], Decimal] = {}
    for code, net in by_code.items():
        for part in tax_codes[code].components:
            layer = (part.name, part.rate_pct)
            exact[layer] = exact.get(layer, ZERO) + net * part.rate_pct / HUNDRED
    if not exact:
        return ()
    shares = [round_half_up(share, decimals) for share in exact.values()]
    shares[0] += tax - sum(shares, ZERO)
    return tuple((name, rate, share) for (name, rate), share in zip(exact, shares, strict=True))


def taxed_sum(net: Decimal, groups: Iterable[TaxGroup]) -> TaxedSum:
    """Net, tax and gross. Raises ValueError where the groups do not tax exactly that net."""
    groups = tuple(groups)
    taxable = sum((group.taxable for group in groups), ZERO)
    if taxable != net:
        raise ValueError(f"the tax groups hold {taxable} of a net of {net}")
    tax = sum((group.tax for group in groups), ZERO)
    return TaxedSum(net, tax, net + tax)


def deposit(gross: Decimal, shop: Shop) -> Decimal:
    """What is asked at the yes: the shop's share of the sum with tax."""
    return round_half_up(gross * shop.deposit.gross_pct / HUNDRED, shop.decimals)
