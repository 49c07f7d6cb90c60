"""Minimum cuts with a published value, put to the programme that chooses a scope.

A place in the network is work, done or not; the source has to be done and the sink costs more than any cut.
An arc is a part that costs nothing and takes the work at its head; left, while the work at its tail is done,
it costs its capacity as the price of coming back. The cheapest scope is the minimum cut: the maximum flow.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal

from quotes.calc.ask.request import EngineAsked, Planned, Request
from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.implications import build_graph
from quotes.calc.scope.must import MustList
from quotes.calc.scope.programme import Programme
from quotes.calc.shop import LINE_KINDS
from tests.calc.small import SHOP, catalogue, component, operation, tier
from tests.outside.check import OutsideCheck
from tests.outside.laws import loaded

Arc = tuple[str, str]
NO_CUT = 1e4


def minimum_cut(arcs: Mapping[Arc, float], source: str, sink: str) -> tuple[float]:
    """The capacity of the cheapest cut between source and sink."""
    places = sorted({place for arc in arcs for place in arc})
    parts = {f"{tail}>{head}": (tail, head, capacity) for (tail, head), capacity in arcs.items()}
    engine = catalogue(
        *(component(c, access_operations=(u,), with_operations=(v,)) for c, (u, v, _) in parts.items()),
        *(operation(place, hours=Decimal(0)) for place in places),
    )
    tune, duty = tier(), loaded((1.0,)).duties["load_0"]
    asked = Request(on=date(2027, 2, 1), engine=EngineAsked(type="bench"), planned=Planned(duty=duty.code))
    shop = replace(SHOP, assembly_fault_chance=0.0)
    case = Case(asked, engine, shop, tune, tune, tune, duty, use=1.0, used={})
    costs = Costs(
        article=dict.fromkeys(parts, 0.0),
        piece={},
        operation={place: NO_CUT if place == sink else 0.0 for place in places},
        machine_work={},
        coming_back={code: capacity for code, (_, _, capacity) in parts.items()},
        tax_share=dict.fromkeys(LINE_KINDS, 0.0),
    )
    graph = build_graph(engine, in_chassis=False, policy_parts=False, mendable=frozenset())
    musts = MustList(seeds={}, parents={}, pieces={}, fixed=frozenset({("work", source)}))
    chosen = Programme(case, graph, musts, costs).cheapest(())
    assert chosen is not None
    assert chosen.proven
    assert sink not in chosen.work
    left = [(u, c) for code, (u, _, c) in parts.items() if code not in chosen.new]
    return (sum(capacity for tail, capacity in left if tail in chosen.work),)


CHECKS = (
    OutsideCheck(
        "maximum flow by its minimum cut, as the cheapest scope",
        minimum_cut,
        (
            {
                ("s", "1"): 16.0,
                ("s", "2"): 13.0,
                ("1", "2"): 10.0,
                ("2", "1"): 4.0,
                ("1", "3"): 12.0,
                ("3", "2"): 9.0,
                ("2", "4"): 14.0,
                ("4", "3"): 7.0,
                ("3", "t"): 20.0,
                ("4", "t"): 4.0,
            },
            "s",
            "t",
        ),
        (23.0,),
        (1e-9,),
        "Cormen et al., Introduction to Algorithms, 2nd ed., 26.1",
        "published, read",
    ),
    OutsideCheck(
        "minimum cut of a small network, as the cheapest scope",
        minimum_cut,
        (
            {
                ("x", "a"): 3.0,
                ("x", "b"): 1.0,
                ("a", "c"): 3.0,
                ("b", "c"): 5.0,
                ("b", "d"): 4.0,
                ("d", "e"): 2.0,
                ("c", "y"): 2.0,
                ("e", "y"): 3.0,
            },
            "x",
            "y",
        ),
        (3.0,),
        (1e-9,),
        "networkx documentation, minimum_cut, example",
        "published, read",
    ),
)
