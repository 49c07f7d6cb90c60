"""What the programme weighs in money: articles, work, machine work, and the price of coming back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case
from quotes.calc.scope.implications import Graph, close
from quotes.calc.shop import LINE_KINDS, LineKind

SERVICES_AHEAD = 2.0
"""An engine closed now is not to be opened for a part in reach before this many services are run."""


@dataclass(frozen=True, slots=True)
class Costs:
    """What the programme weighs, before tax, in units of the currency."""

    article: Mapping[str, float]
    """Price of a full renewal's parts, by component; absent where nothing can be bought."""
    piece: Mapping[str, float]
    """Price of one part, for components bought singly on the way."""
    operation: Mapping[str, float]
    machine_work: Mapping[str, float]
    """Price of one piece sent out."""
    coming_back: Mapping[str, float]
    """Expected price of reaching a component again, where it is left within reach."""
    tax_share: Mapping[LineKind, float]
    """Tax by line kind, as a share of the net sum: a budget is with tax."""


def costs_of(case: Case, graph: Graph, pricing: Pricing) -> Costs:
    """The prices of one case as the programme takes them."""
    catalogue = case.catalogue
    return Costs(
        article={c: float(p) for c in catalogue.components if (p := pricing.article(c)) is not None},
        piece={c: float(p) for c in catalogue.components if (p := pricing.piece(c)) is not None},
        operation={o: float(pricing.operation(o)) for o in catalogue.operations},
        machine_work={m: float(pricing.machine_work_piece(m)) for m in catalogue.machine_work},
        coming_back=_coming_back(case, graph, pricing),
        tax_share={kind: pricing.tax_share(kind) for kind in LINE_KINDS},
    )


def _coming_back(case: Case, graph: Graph, pricing: Pricing) -> dict[str, float]:
    """Price of reaching a component again whose planned life ends within this service and one more like it.

    It is certain to fall due by then, so the expected price is the whole labour of getting back to it.
    """
    found: dict[str, float] = {}
    for code, levels in case.levels.items():
        component = case.catalogue.components[code]
        wear = levels.left
        if component.judged_by == "disturbed" or not component.access_operations:
            continue
        if wear.age + wear.rate * SERVICES_AHEAD * case.leg > wear.life:
            found[code] = float(_price_of_reaching(code, graph, pricing))
    return found


def _price_of_reaching(code: str, graph: Graph, pricing: Pricing) -> Decimal:
    nodes = close(graph, [("work", o) for o in pricing.case.catalogue.components[code].access_operations])
    return sum((pricing.operation(o) for kind, o in nodes if kind == "work"), Decimal(0))
