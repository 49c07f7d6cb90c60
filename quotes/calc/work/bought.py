"""What of the parts that a job takes must be bought by itself, and what comes inside a larger article.

Quantities are in the unit of the price list; None stands for the full set that a renewal takes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue

Quantities = Mapping[str, int | None]


@dataclass(frozen=True, slots=True)
class SuppliedIn:
    """A component that needs no line of its own where a larger article is bought."""

    component: str
    article: str
    reason: str
    only_block: str = ""
    """Holds for this kind of block alone, where it is named."""


SUPPLIED_IN = (
    SuppliedIn("cover_gasket", "gasket_kit_bottom", "the bottom-end kit holds the gaskets of the covers"),
    SuppliedIn("bore", "crankcase", "the bores are in the case: one article, bought once", "integral"),
)
"""Common practice, no source: the notes on the price list say the same."""


def to_buy(catalogue: EngineCatalogue, renewed: Collection[str], taken: Quantities) -> dict[str, int | None]:
    """Components to buy, with quantity: full sets of those renewed, then what the operations take.

    Left out is what comes with another article bought (`comes_with`, SUPPLIED_IN). Components that the
    engine does not have are left out too.
    """
    wanted: dict[str, int | None] = {**taken, **dict.fromkeys(renewed)}
    arrives = _arrives_with(catalogue, wanted)
    return {
        code: _capped(catalogue, code, wanted[code])
        for code in catalogue.components
        if code in wanted and code not in arrives
    }


def _arrives_with(catalogue: EngineCatalogue, bought: Iterable[str]) -> set[str]:
    """What is part of an article bought whole."""
    whole = set(bought)
    arrives = {
        given
        for code in whole & catalogue.components.keys()
        for given in catalogue.components[code].comes_with
        if code != given
    }
    block = catalogue.engine_type.block
    arrives |= {
        one.component for one in SUPPLIED_IN if one.article in whole and one.only_block in ("", block)
    }
    return arrives


def _capped(catalogue: EngineCatalogue, code: str, quantity: int | None) -> int | None:
    part = catalogue.parts.get((code, "stock"))
    if quantity is None or part is None:
        return quantity
    return min(quantity, part.quantity)
