"""The programme, against another solver that is given the catalogue and not our rows, and brute force."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.ask.request import Request
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.decide import decide
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.hazards import hazards, plan_hazard, shown_chance
from quotes.calc.scope.must import must_list
from quotes.calc.scope.plan import Plan, plan_of
from quotes.calc.scope.programme import Bound, Programme
from quotes.calc.scope.rules.base import Must
from tests.calc.asked import asked, ran, tired_four, tired_single
from tests.calc.oracle import Oracle, plain_costs
from tests.calc.small import SHOP
from tests.cast import shipped


def price_of(case: Case, costs: Costs, programme: Programme, stop: Bound) -> float:
    """What our programme's plan costs by the same objective, worked out from its own choice."""
    chosen = programme.cheapest([stop])
    assert chosen is not None
    assert chosen.proven
    extras = [Must(("new", c), "worth_it", "") for c in sorted(chosen.new)]
    extras += [Must(("done", c), "worth_it", "") for c in sorted(chosen.done - chosen.new)]
    plan = plan_of(case, programme.graph, programme.musts).with_more(extras)
    return plain_price(case, costs, plan)


def plain_price(case: Case, costs: Costs, plan: Plan) -> float:
    """A plan's articles, pieces, hours, faults and machine work, each once."""
    fault = float(case.shop.fault_cost) * case.shop.assembly_fault_chance
    operations = case.catalogue.operations
    return (
        sum(costs.article[c] for c in plan.bought)
        + sum(costs.piece[c] * n for c, n in plan.singly.items())
        + sum(costs.operation[o] + fault * operations[o].is_assembly for o in plan.operations)
        + sum(costs.machine_work[m] * n for m, n in plan.machine_work.items())
    )


CASES = [
    (tired_four(), "refresh", 0.94),
    (tired_four(), "mild", 0.93),
    (tired_four(amount=1800, duty="sprint"), "refresh", 0.90),
    (tired_single(), "refresh", 0.93),
    (tired_four(include=("cylinder_head",)), "refresh", 0.945),
    (tired_single(include=("crankshaft",)), "refresh", 0.93),
    (asked("twin650", ran(6000, duty="track_day"), amount=1050, duty="track_day"), "refresh", 0.965),
    (asked("four1000", ran(5000), amount=75, duty="hill_climb"), "refresh", 0.975),
]


@pytest.mark.parametrize(("request_", "tier", "target"), CASES)
def test_no_plan_is_cheaper_than_ours_by_another_solver(request_: Request, tier: str, target: float) -> None:
    """OR-Tools CP-SAT on the same engine, stated from the catalogue; both prove their optimum."""
    case = make_case(request_, shipped(request_.engine.type), SHOP, tier)
    graph, costs = graph_of(case), plain_costs(case)
    programme = Programme(case, graph, must_list(case, graph), costs)
    bound = Bound(hazards(case, case.use), -math.log(target))
    ours = price_of(case, costs, programme, bound)
    assert ours == pytest.approx(Oracle(case, costs).cheapest(programme, bound), abs=0.5)


def test_on_a_few_parts_no_subset_beats_the_plan() -> None:
    """Brute force over what may be renewed of six parts, everything else left as it is."""
    free = ("selector", "clutch_steel", "water_pump_bearing", "oil_pump", "cam_chain", "starter_clutch")
    pool = tuple(c for c in shipped("four600").components if c not in free)
    request = tired_four(
        leave=tuple(c for c in pool if shipped("four600").components[c].judged_by == "measure")
    )
    case = make_case(request, shipped("four600"), SHOP, "refresh")
    graph, costs = graph_of(case), plain_costs(case)
    musts = must_list(case, graph)
    programme = Programme(case, graph, musts, costs)
    chosen_from = [c for c in free if ("new", c) not in musts.parents]
    bound = _middle_bound(case, programme, chosen_from)
    ours = price_of(case, costs, programme, bound)
    assert ours == pytest.approx(_brute_force(case, costs, programme, chosen_from, bound), abs=0.01)


def _plans(programme: Programme, case: Case, free: list[str]) -> Iterator[tuple[Plan, float]]:
    least = plan_of(case, programme.graph, programme.musts)
    stop = hazards(case, case.use)
    for count in range(len(free) + 1):
        for codes in itertools.combinations(free, count):
            plan = least.with_more([Must(("new", c), "worth_it", "") for c in codes])
            yield plan, plan_hazard(stop, plan) + plan.faults * case.shop.assembly_fault_chance


def _middle_bound(case: Case, programme: Programme, free: list[str]) -> Bound:
    found = sorted(hazard for _, hazard in _plans(programme, case, free))
    return Bound(hazards(case, case.use), found[len(found) // 3])


def _brute_force(case: Case, costs: Costs, programme: Programme, free: list[str], bound: Bound) -> float:
    plans = _plans(programme, case, free)
    return min(plain_price(case, costs, plan) for plan, hazard in plans if hazard <= bound.at_most + 1e-12)


@settings(max_examples=12, deadline=None)
@given(st.floats(0.82, 0.95))
def test_the_plan_reaches_what_was_asked_or_says_that_it_cannot(target: float) -> None:
    case = make_case(tired_four(target=round(target, 4)), shipped("four600"), SHOP, "refresh")
    scope = decide(grounds_of(case))
    reached = shown_chance(case, scope.plan, case.use)
    assert reached == scope.reached
    assert reached >= target - 0.001 if scope.target_met else reached < target


def test_a_higher_target_never_costs_less() -> None:
    prices = []
    for target in ("0.85", "0.90", "0.93", "0.95"):
        scope = decide(grounds_of(make_case(tired_four(target=target), shipped("four600"), SHOP, "refresh")))
        prices.append(scope.pricing.totals(scope.plan).gross.typical)
    assert prices == sorted(prices)


def test_the_same_engine_gets_the_same_plan_every_time() -> None:
    plans = [
        decide(grounds_of(make_case(tired_four(), shipped("four600"), SHOP, "mild"))).plan for _ in range(2)
    ]
    assert plans[0].new == plans[1].new
    assert plans[0].operations == plans[1].operations


def test_nobody_closes_a_split_engine_over_main_bearings_that_end_next_season() -> None:
    """Left within reach, they would bring the engine back: common practice, no source."""
    request = tired_four(amount=1800, duty="sprint", include=("rod_bolt",), target="0.75")
    scope = decide(grounds_of(make_case(request, shipped("four600"), SHOP, "refresh")))
    assert "cases_split" in scope.plan.operations
    assert "main_bearing" in scope.plan.new
    assert scope.plan.seeds[("new", "main_bearing")].code in {"coming_back", "worth_it"}
