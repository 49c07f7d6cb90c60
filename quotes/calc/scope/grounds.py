"""What a scope is decided on: the case, its implications, its must list and the least that may be done."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.money.priced_parts import PricedParts
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.graph_of import dropped, graph_of, mendable
from quotes.calc.scope.implications import Graph
from quotes.calc.scope.must import MustList, must_list
from quotes.calc.scope.plan import Plan, plan_of
from quotes.calc.shop import Shop


@dataclass(frozen=True)
class Grounds:
    """Worked out once for each tier, for the faults and for the scope."""

    case: Case
    graph: Graph
    musts: MustList
    least: Plan


def grounds_of(case: Case, graph: Graph | None = None) -> Grounds:
    """The grounds of one case."""
    graph = graph or graph_of(case)
    musts = must_list(case, graph)
    return Grounds(case, graph, musts, plan_of(case, graph, musts))


def grounds_for(request: Request, catalogue: EngineCatalogue, shop: Shop) -> dict[str, Grounds]:
    """The grounds of every tier asked for; the request must be free of faults by itself."""
    priced = PricedParts()
    cases = {tier: make_case(request, catalogue, shop, tier, priced) for tier in request.tiers}
    graphs: dict[tuple[frozenset[str], frozenset[str]], Graph] = {}
    for case in cases.values():  # most tiers of an engine have the same implications
        what = mendable(case), dropped(case)
        graphs[what] = graphs.get(what) or graph_of(case)
    return {tier: grounds_of(case, graphs[mendable(case), dropped(case)]) for tier, case in cases.items()}
