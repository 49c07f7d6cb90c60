"""Problems of choice with a published answer, put to the programme that chooses a scope."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from quotes.calc.ask.request import EngineAsked, Planned, Request
from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.implications import build_graph
from quotes.calc.scope.must import MustList
from quotes.calc.scope.programme import Programme
from tests.calc.small import SHOP, catalogue, component, operation, tier
from tests.outside.check import OutsideCheck
from tests.outside.laws import loaded

NOTHING = MustList(seeds={}, parents={}, pieces={}, fixed=frozenset())


def project_selection(
    revenue: Mapping[str, float], tools: Mapping[str, float], needs: Mapping[str, Sequence[str]]
) -> tuple[float, ...]:
    """The best profit, then 1 for each project that is taken and 0 for each that is not.

    A project is a part to be renewed, its revenue the price of coming back if it is left, its tools the work
    that renewing it takes: what all cost least is the revenue of all less the profit.
    """
    case = case_of(revenue, tools, needs)
    graph = build_graph(case.catalogue, in_chassis=False, policy_parts=False, mendable=frozenset())
    costs = Costs(
        article=dict.fromkeys(revenue, 0.0),
        piece={},
        operation=tools,
        machine_work={},
        coming_back=revenue,
        tax_share={"part": 0.0, "labour": 0.0, "machine_work": 0.0, "consumables": 0.0},
    )
    chosen = Programme(case, graph, NOTHING, costs).cheapest(())
    assert chosen is not None
    profit = sum(revenue[p] for p in chosen.new) - sum(tools[t] for t in chosen.work)
    return profit, *(float(project in chosen.new) for project in revenue)


def case_of(
    revenue: Mapping[str, float], tools: Mapping[str, float], needs: Mapping[str, Sequence[str]]
) -> Case:
    """An engine of as many parts as there are projects, and the work that they take."""
    engine = catalogue(
        *(component(project, with_operations=tuple(needs[project])) for project in revenue),
        *(operation(tool, hours=Decimal(0)) for tool in tools),
    )
    tune, duty = tier(), loaded((1.0,)).duties["load_0"]
    asked = Request(on=date(2027, 2, 1), engine=EngineAsked(type="bench"), planned=Planned(duty=duty.code))
    shop = replace(SHOP, assembly_fault_chance=0.0)
    return Case(asked, engine, shop, tune, tune, tune, duty, use=1.0, used={})


CHECKS = (
    OutsideCheck(
        "best profit of three projects, and which are taken",
        project_selection,
        (
            {"first": 100.0, "second": 200.0, "third": 150.0},
            {"one": 200.0, "two": 100.0, "three": 50.0},
            {"first": ("one", "two"), "second": ("two",), "third": ("three",)},
        ),
        (200.0, 0.0, 1.0, 1.0),
        (0.5, 0.5, 0.5, 0.5),
        "Wikipedia, 'Max-flow min-cut theorem', project selection problem",
        "published, read",
    ),
)
