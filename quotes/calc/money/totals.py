"""The sums of a job: discount, tax and gross, at the low, the typical and the high end of its band."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, TaxedSum
from catalogue.calc.said import say
from quotes.calc.money.discount import discount_amount, discount_lines
from quotes.calc.money.priced import Priced
from quotes.calc.money.tax import TaxedLine, tax_of, taxed_sum
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.shop import Shop


@dataclass(frozen=True, slots=True)
class Totals:
    """Net, tax and gross as bands; `groups` is the tax of the typical sum."""

    net: Spread
    tax: Spread
    gross: Spread
    groups: tuple[TaxGroup, ...]


def with_discount(lines: Iterable[Priced], pct: Decimal, reason: str, shop: Shop) -> tuple[Priced, ...]:
    """The lines, and a discount of `pct` per cent as one negative line for each rate of tax.

    The band bears the same per cent. Where the lines come to nothing no discount is taken.
    """
    lines = tuple(lines)
    typical = dict(_taken_off([(line.tax_code, line.net) for line in lines], pct, shop))
    low = dict(_taken_off([(line.tax_code, line.low) for line in lines], pct, shop))
    high = dict(_taken_off([(line.tax_code, line.high) for line in lines], pct, shop))
    words = say("Discount {percent} %", percent=plain_figure(pct))
    return (
        *lines,
        *(
            Priced(
                kind="discount",
                code=code,
                description=f"{words}: {reason}" if reason else words,
                quantity=Decimal(-1),  # a price is never negative: the sign is the quantity's (BR-27)
                unit="job",
                unit_price=-net,
                net=net,
                low=low.get(code, ZERO),
                high=high.get(code, ZERO),
                tax_code=code,
            )
            for code, net in typical.items()
        ),
    )


def _taken_off(lines: Sequence[TaxedLine], pct: Decimal, shop: Shop) -> tuple[TaxedLine, ...]:
    net = sum((net for _, net in lines), ZERO)
    if net <= ZERO or pct == ZERO:
        return ()
    amount = discount_amount(net, pct, shop.decimals)
    return discount_lines(lines, amount, shop.tax_codes, shop.decimals)


def totals(lines: Iterable[Priced], shop: Shop, *, firm: bool) -> Totals:
    """The sums of these lines; after the strip-down (`firm`) the band closes to the typical sum."""
    lines = tuple(lines)
    groups = tax_of([(line.tax_code, line.net) for line in lines], shop.tax_codes, shop.decimals)
    typical = taxed_sum(sum((line.net for line in lines), ZERO), groups)
    low = typical if firm else _sum([(line.tax_code, line.low) for line in lines], shop)
    high = typical if firm else _sum([(line.tax_code, line.high) for line in lines], shop)
    return Totals(
        net=Spread(low=low.net, typical=typical.net, high=high.net),
        tax=Spread(low=low.tax, typical=typical.tax, high=high.tax),
        gross=Spread(low=low.gross, typical=typical.gross, high=high.gross),
        groups=groups,
    )


def _sum(lines: Sequence[TaxedLine], shop: Shop) -> TaxedSum:
    groups = tax_of(lines, shop.tax_codes, shop.decimals)
    return taxed_sum(sum((net for _, net in lines), ZERO), groups)
