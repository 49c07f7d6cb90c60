"""What another shop factor would do to the three standard quotes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.compare import compare
from quotes.calc.learning.standard_quotes import STANDARD, Catalogued, Compare
from quotes.calc.sheet.chance_values import Chance
from quotes.calc.sheet.words import percent_band
from quotes.calc.shop import Shop


@dataclass(frozen=True, slots=True)
class FactorEffect:
    """One option of one quote, as it is and as it would be; sums are with tax."""

    name: str
    option: str
    chance: float
    chance_then: float
    gross: Decimal
    gross_then: Decimal
    likely: str
    likely_then: str
    """The bands of the chances."""


def factor_effects(
    catalogue_of: Catalogued, shop: Shop, factor: float, on: date, work_out: Compare = compare
) -> tuple[FactorEffect, ...]:
    """Every option of the standard quotes under the factor that stands and under another."""
    found: list[FactorEffect] = []
    for standard in STANDARD:
        catalogue = catalogue_of(standard.engine_type)
        if catalogue is None:
            continue
        request = standard.request(on)
        now = work_out(request, catalogue, shop)
        then = work_out(request, catalogue, replace(shop, shop_factor=factor))
        found += [
            FactorEffect(
                name=f"{now.engine_type_name}, {now.planned_in_words}",
                option=one.name,
                chance=one.chance.value,
                chance_then=other.chance.value,
                gross=one.planned_gross.typical,
                gross_then=other.planned_gross.typical,
                likely=_likely(one.chance),
                likely_then=_likely(other.chance),
            )
            for one, other in zip(now.options, then.options, strict=True)
        ]
    return tuple(found)


def _likely(chance: Chance) -> str:
    return say("likely {band}", band=percent_band(chance.low, chance.high))
