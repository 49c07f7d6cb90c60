"""An issued quote added up again: each option from its lines, its tax from its groups."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from quotes.calc.money.price import line_net
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.sheet.values import Comparison, Option


def quote_sum_faults(document: str, comparison: Comparison) -> Iterator[RecordFault]:
    """What does not add up. That net and tax are gross, and the lines the net, no option can break."""
    leave = comparison.leave_it
    yield from differing(document, Stated(f"gross of {leave.name}", leave.net + leave.tax, leave.gross))
    for option in comparison.options:
        name = f"{document}, {option.name}"
        yield from _lines(name, option, comparison.decimals)
        yield from _groups(name, option, comparison.decimals)


def _lines(document: str, option: Option, decimals: int) -> Iterator[RecordFault]:
    for line in option.lines:
        again = line_net(line.quantity, line.unit_price, decimals)
        yield from differing(document, Stated(f"net of {line.key}", again, line.net))


def _groups(document: str, option: Option, decimals: int) -> Iterator[RecordFault]:
    groups = option.tax_groups
    yield from differing(
        document,
        Stated("net in its tax groups", option.net.typical, _sum(group.taxable for group in groups)),
        Stated("tax in its tax groups", option.tax.typical, _sum(group.tax for group in groups)),
    )
    for group in groups:
        name = f"tax {group.code} {group.rate_pct:f} %"
        again = round_half_up(group.taxable * group.rate_pct / HUNDRED, decimals)
        yield from differing(document, Stated(name, again, group.tax))
        if group.components:
            layers = _sum(tax for _, _, tax in group.components)
            yield from differing(document, Stated(f"layers of {name}", group.tax, layers))
    yield from _taxable(document, option)


def _taxable(document: str, option: Option) -> Iterator[RecordFault]:
    """Each group's lines, where no group holds lines of two codes: a sheet does not say which those are."""
    by_code: dict[str, Decimal] = {}
    for line in option.lines:
        by_code[line.tax_code] = by_code.get(line.tax_code, ZERO) + line.net
    if by_code.keys() == {group.code for group in option.tax_groups}:
        for group in option.tax_groups:
            yield from differing(document, _held(group, by_code[group.code]))


def _held(group: TaxGroup, lines: Decimal) -> Stated:
    return Stated(f"net taxed by {group.code}", lines, group.taxable)


def _sum(amounts: Iterator[Decimal]) -> Decimal:
    return sum(amounts, ZERO)
