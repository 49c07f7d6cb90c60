"""What is asked for a part, machine work, an hour and consumables: unit prices and line sums, before tax.

Money is in the shop's currency, rounded half-up to its decimals. The markup schedule, the 15 % on machine
work and the consumables rule are common practice, no source; the owner sets them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue, Grade, KindOfWork, Part
from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from quotes.calc.shop import MarkupBand, Shop


class MissingPriceError(LookupError):
    """Something that must be priced has no price; the message says what."""


def line_net(
    quantity: Decimal, unit_price: Decimal, decimals: int, *, price_base: Decimal = Decimal(1)
) -> Decimal:
    """Quantity x unit price, rounded half-up: BT-131 of EN 16931, before allowances and charges.

    `price_base` is the quantity that the price is for (BT-149): 36109 per 100 litres has the base 100.
    """
    return round_half_up(quantity * unit_price / price_base, decimals)


def with_markup(cost: Decimal, bands: Sequence[MarkupBand]) -> Decimal:
    """Cost plus its band's markup, not rounded, and never less than a cheaper part would sell for.

    A step schedule sells a part that costs 50.01 for less than one at 49.99: from each band edge on the
    higher of the two prices holds. Below the first band its markup holds; without bands there is none.
    """
    price = cost
    highest_below = ZERO
    markup = ZERO
    for number, band in enumerate(sorted(bands, key=lambda one: one.cost_from)):
        if number and cost < band.cost_from:
            break
        if number:
            highest_below = max(highest_below, _plus(band.cost_from, markup))
        markup = band.markup_pct
        price = max(highest_below, _plus(cost, markup))
    return price


def _plus(cost: Decimal, pct: Decimal) -> Decimal:
    return cost * (HUNDRED + pct) / HUNDRED


def sell_price(cost: Decimal, list_price: Decimal, shop: Shop) -> Decimal:
    """The unit price of a part: its cost through the markup schedule, capped at list where the shop says so.

    At an equal list price a dearer cost never sells for less.
    """
    price = usual_price(cost, shop)
    if shop.cap_at_list:
        return min(price, round_half_up(list_price, shop.decimals))
    return price


def usual_price(cost: Decimal, shop: Shop) -> Decimal:
    """The same of a part that has no list price: its cost through the markup schedule."""
    return round_half_up(with_markup(cost, shop.markup_bands), shop.decimals)


def machine_work_unit_price(cost: Decimal, shop: Shop) -> Decimal:
    """The unit price of work sent out: the outside shop's price with the shop's markup on it."""
    return round_half_up(_plus(cost, shop.machine_work_markup_pct), shop.decimals)


def labour_rate(kind: KindOfWork, shop: Shop) -> Decimal:
    """Per hour. Raises MissingPriceError where the shop has set no rate for that kind of work."""
    try:
        return shop.labour_rates[kind]
    except KeyError:
        raise MissingPriceError(f"the workshop has no labour rate for {kind!r}") from None


def consumables(labour_net: Decimal, shop: Shop) -> Decimal:
    """Workshop consumables of a job: a share of labour between a least and a most; none without labour."""
    if labour_net <= ZERO:
        return ZERO
    rule = shop.consumables
    share = labour_net * rule.labour_pct / HUNDRED
    return round_half_up(min(max(share, rule.least), rule.most), shop.decimals)


def part_of(catalogue: EngineCatalogue, component: str, performance: Collection[str] = ()) -> Part:
    """The part for a component: performance grade where it is asked for and made, else stock.

    Raises MissingPriceError where the price list has neither.
    """
    grades: tuple[Grade, ...] = ("performance", "stock") if component in performance else ("stock",)
    for grade in grades:
        if part := catalogue.parts.get((component, grade)):
            return part
    raise MissingPriceError(
        f"no {grades[-1]} part for {component!r} on the price list of {catalogue.engine_type.code!r}"
    )


def part_quantity(part: Part, quantity: int | None) -> int:
    """How many of the part's unit to buy: `quantity`, at most a full set; None is the full set."""
    return part.quantity if quantity is None else min(quantity, part.quantity)
