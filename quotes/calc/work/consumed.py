"""Parts that a job takes because its operations take them, and what of all that must be bought.

Quantities are in the unit of the price list; None stands for the full set that a renewal takes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.work.work_set import operation_of

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


def consumed(catalogue: EngineCatalogue, operations: Iterable[str], *, policy: bool) -> dict[str, int | None]:
    """What the operations take new: always what can't be used again, and with `policy` the shop's choice too.

    Numbers add up over the operations, to the full quantity of the price list at most. In the order of the
    catalogue's components. Gaskets that come in a kit which is taken as well are left out.
    """
    taken: dict[str, int | None] = {}
    for code in sorted(set(operations)):
        for part in operation_of(catalogue, code).consumes:
            if part.rule == "always" or policy:
                so_far = taken.get(part.component, 0)
                whole = part.quantity is None or so_far is None
                taken[part.component] = None if whole else (so_far or 0) + (part.quantity or 0)
    return to_buy(catalogue, (), taken)


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
