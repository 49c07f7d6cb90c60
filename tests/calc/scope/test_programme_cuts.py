"""The programme against minimum cuts, on made-up engines of a few parts on three levels.

Without ways in to choose between, the least of price and so much money for each unit of hazard is a minimum
cut (Picard 1976): no plan as safe as the cut's is cheaper. As the money rises the cuts grow, each holding the
last (Gallo, Grigoriadis and Tarjan 1989; Topkis 1978).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.calc.engine import Recondition
from quotes.calc.ask.request import EngineAsked, Planned, Request
from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.hazards import Hazards
from quotes.calc.scope.implications import Graph, Node, build_graph
from quotes.calc.scope.must import MustList
from quotes.calc.scope.programme import Bound, Programme
from quotes.calc.shop import LINE_KINDS
from tests.calc.small import SHOP, catalogue, component, machine_work, operation, tier
from tests.outside.laws import loaded

NOTHING = MustList(seeds={}, parents={}, pieces={}, fixed=frozenset())
Taken = frozenset[Node]


@dataclass(frozen=True)
class Made:
    """A made-up engine: what brings what, what it costs, and its hazards."""

    case: Case
    graph: Graph
    costs: Costs
    hazards: dict[str, Hazards]

    def cut(self, worth: float) -> Taken:
        """What the minimum cut takes where a unit of hazard is worth so much; of equal cuts the least."""
        flow = nx.DiGraph()
        flow.add_node("sink")
        for node, targets in self.graph.edges.items():
            flow.add_edge(node, "sink", capacity=self.price(node))
            flow.add_edges_from((node, target) for target in targets)  # no capacity: never cut
        for code, each in self.hazards.items():
            back = each.left if each.done is None else each.done
            flow.add_edge("source", ("new", code), capacity=worth * (back - each.new))
            if each.done is not None:
                flow.add_edge("source", ("done", code), capacity=worth * (each.left - back))
                flow.add_edge(("done", code), ("new", code), capacity=self.costs.machine_work[f"mend {code}"])
        _, (reached, _) = nx.minimum_cut(flow, "source", "sink")
        return frozenset(reached - {"source"})

    def price(self, node: Node) -> float:
        kind, code = node
        if kind == "new":
            return self.costs.article[code]
        return self.costs.operation[code] if kind == "work" else 0.0

    def price_of(self, taken: Taken) -> float:
        mended = [code for kind, code in taken if kind == "done" and ("new", code) not in taken]
        return sum(self.price(node) for node in taken) + sum(
            self.costs.machine_work[f"mend {code}"] for code in mended
        )

    def hazard_of(self, taken: Taken) -> float:
        return sum(
            each.new
            if ("new", code) in taken
            else each.done
            if each.done is not None and ("done", code) in taken
            else each.left
            for code, each in self.hazards.items()
        )


PARTS = tuple("abcde")
WORK = tuple("pqrs")
few = st.lists(st.sampled_from(WORK), max_size=2, unique=True).map(tuple)
money = st.integers(1, 400).map(float)


@st.composite
def engines(draw: st.DrawFn) -> Made:
    """Five parts that share four pieces of work and bring each other along; some can be brought back."""
    mendable = draw(st.frozensets(st.sampled_from(PARTS), max_size=3))
    things = [
        component(
            code,
            access_operations=draw(few),
            with_operations=draw(few),
            companions_on_renewal=draw(st.lists(st.sampled_from(PARTS), max_size=1).map(tuple)),
            recondition=Recondition((f"mend {code}",), 1, 0.5, 9) if code in mendable else None,
        )
        for code in PARTS
    ]
    work = [operation(code, hours=Decimal(0), requires=draw(few)) for code in WORK]
    out = [machine_work(f"mend {code}", quantity=1) for code in sorted(mendable)]
    engine = catalogue(*things, *work, *out)
    hazards = {}
    for code in PARTS:
        new, done, left = sorted(draw(st.tuples(*[st.integers(1, 300)] * 3)))
        hazards[code] = Hazards(left / 1000, done / 1000 if code in mendable else None, new / 1000)
    costs = Costs(
        article={code: draw(money) for code in PARTS},
        piece={},
        operation={code: draw(money) for code in WORK},
        machine_work={one.code: draw(money) for one in out},
        coming_back={},
        tax_share=dict.fromkeys(LINE_KINDS, 0.0),
    )
    tune, duty = tier(), loaded((1.0,)).duties["load_0"]
    asked = Request(on=date(2027, 2, 1), engine=EngineAsked(type="bench"), planned=Planned(duty=duty.code))
    shop = replace(SHOP, assembly_fault_chance=0.0)
    case = Case(asked, engine, shop, tune, tune, tune, duty, use=1.0, used={})
    graph = build_graph(engine, in_chassis=False, policy_parts=False, mendable=mendable)
    return Made(case, graph, costs, hazards)


@settings(max_examples=25, deadline=None)
@given(engines())
def test_no_plan_as_safe_as_a_minimum_cut_is_cheaper_and_ours_costs_the_same(made: Made) -> None:
    for worth in (500.0, 1_000.0, 2_000.0, 4_000.0, 8_000.0):
        no_plan_is_cheaper(made, made.cut(worth))


def no_plan_is_cheaper(made: Made, taken: Taken) -> None:
    programme = Programme(made.case, made.graph, NOTHING, made.costs)
    chosen = programme.cheapest([Bound(made.hazards, made.hazard_of(taken) + 1e-9)])
    assert chosen is not None
    assert chosen.proven
    ours: Taken = frozenset(
        [
            *(("new", code) for code in chosen.new),
            *(("done", code) for code in chosen.done if code in made.graph.mendable),
            *(("work", code) for code in chosen.work),
        ]
    )
    assert made.price_of(ours) == pytest.approx(made.price_of(taken), abs=1e-4)


@settings(max_examples=30, deadline=None)
@given(engines())
def test_where_a_unit_of_hazard_is_worth_more_the_cut_holds_all_that_it_held_before(made: Made) -> None:
    cuts = [made.cut(worth) for worth in (100.0, 500.0, 1_000.0, 2_000.0, 5_000.0, 20_000.0)]
    for less, more in pairwise(cuts):
        assert less <= more
