"""The best that can be had for a sum with tax, against brute force and another solver."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest

from quotes.calc.ask.request import Edits, LineChange, OwnLine, Request
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.hazards import hazards, plan_hazard, rider_hazard
from quotes.calc.scope.implications import close
from quotes.calc.scope.must import must_list
from quotes.calc.scope.plan import Plan, plan_of
from quotes.calc.scope.programme import Programme, Purse
from quotes.calc.scope.rules.base import Must
from quotes.calc.scope.search import rider_ceiling
from quotes.calc.shop import ConsumablesRule, Shop
from tests.calc.asked import tired_four, tired_single
from tests.calc.oracle import Oracle, plain_costs
from tests.calc.scope.rules.demands import case_of
from tests.calc.small import SHOP
from tests.cast import shipped

FREE = (
    "selector",
    "clutch_steel",
    "water_pump_bearing",
    "cam_chain_tensioner",
    "oil_relief",
)


def spent(budget: Decimal | int, shop: Shop = SHOP, **more: Any) -> Scope:
    """The tired four refreshed for a budget."""
    request = tired_four(budget=Decimal(budget), **more)
    return decide(grounds_of(make_case(request, shipped("four600"), shop, "refresh")))


def gross(scope: Scope, plan: Plan | None = None) -> Decimal:
    return scope.pricing.totals(scope.plan if plan is None else plan).gross.typical


def only_a_few(**more: Any) -> Any:
    """Five parts may be renewed beside the must list and nothing else: few enough to try them all."""
    case = case_of(tired_four())
    graph = graph_of(case)
    taken = close(graph, [*must_list(case, graph).nodes, *(("new", code) for code in FREE)])
    kept = {code for kind, code in taken if kind in {"new", "done"}}
    return {"leave": tuple(c for c in shipped("four600").components if c not in kept), **more}


def safest_of(plans: list[tuple[Decimal, float, bool]], budget: Decimal) -> float:
    """The best chance for the money; under the rider-safety ceiling where that can be had."""
    affordable = [(chance, under) for price, chance, under in plans if price <= budget]
    return max([chance for chance, under in affordable if under] or [chance for chance, _ in affordable])


def every_plan(scope: Scope) -> Iterator[Plan]:
    least = plan_of(scope.case, scope.graph, scope.musts)
    for count in range(len(FREE) + 1):
        for codes in itertools.combinations(FREE, count):
            yield least.with_more([Must(("new", code), "worth_it", "") for code in codes])


EDITS = {
    "as worked": Edits(),
    "a discount": Edits(discount_pct=Decimal(10), discount_reason="club"),
    "a line of the desk's own": Edits(
        own_lines=(OwnLine(description="Carriage", quantity=Decimal(1), unit_price=Decimal(85)),)
    ),
    "a price set by hand": Edits(
        lines={"labour:strip": LineChange(unit_price=Decimal(80), note="regular customer")}
    ),
}


def consumables(pct: str, least: int, most: int) -> Shop:
    rule = ConsumablesRule(labour_pct=Decimal(pct), least=Decimal(least), most=Decimal(most))
    return replace(SHOP, consumables=rule)


CONSUMABLES = {
    "at their most": SHOP,
    "a share of labour": consumables("4", 12, 900),
    "at their least": consumables("0.1", 50, 900),
    "some at their most": consumables("4", 12, 125),
}


@pytest.mark.parametrize("edits", EDITS.values(), ids=EDITS)
def test_no_plan_within_the_budget_is_safer(edits: Edits) -> None:
    """every subset of five parts, priced as the quote prices it: consumables, rounding, tax and all."""
    no_plan_is_safer(SHOP, edits)


@pytest.mark.parametrize("shop", CONSUMABLES.values(), ids=CONSUMABLES)
def test_no_plan_within_the_budget_is_safer_whatever_consumables_come_to(shop: Shop) -> None:
    no_plan_is_safer(shop, Edits())


def no_plan_is_safer(shop: Shop, edits: Edits) -> None:
    poor = spent(1, shop, **only_a_few(edits={"refresh": edits}))
    ceiling, leg = rider_ceiling(poor.case).at_most, poor.case.leg
    plans = [
        (gross(poor, plan), poor.strata.chance(plan), rider_hazard(poor.case, plan, leg) <= ceiling)
        for plan in every_plan(poor)
    ]
    for budget in sorted(price for price, *_ in plans)[3::10]:
        scope = spent(budget, shop, **only_a_few(edits={"refresh": edits}))
        assert gross(scope) <= budget
        assert scope.reached == pytest.approx(safest_of(plans, budget), abs=2e-5)


@pytest.mark.parametrize(("request_", "more"), [(tired_four(), 700.0), (tired_single(), 400.0)])
def test_no_plan_for_a_sum_is_safer_by_another_solver(request_: Request, more: float) -> None:
    case = case_of(request_)
    graph, costs, of = graph_of(case), plain_costs(case), hazards(case, case.use)
    programme = Programme(case, graph, must_list(case, graph), costs)
    least = programme.cheapest(())
    assert least is not None
    at_most = more + sum(costs.operation[o] for o in least.work) + sum(costs.article[c] for c in least.bought)
    chosen = programme.safest(of, [Purse(at_most)])
    assert chosen is not None
    extras = [Must(("new", c), "worth_it", "") for c in sorted(chosen.bought)]
    extras += [Must(("done", c), "worth_it", "") for c in sorted(chosen.done - chosen.new)]
    plan = plan_of(case, graph, programme.musts).with_more(extras)
    ours = plan_hazard(of, plan) + plan.faults * case.shop.assembly_fault_chance
    assert ours == pytest.approx(Oracle(case, costs).safest(programme, of, at_most), abs=1e-4)


def test_more_money_never_buys_less_and_none_is_spent_over_the_budget() -> None:
    budgets = (4_400, 4_900, 5_600, 7_000)
    scopes = [spent(budget) for budget in budgets]
    assert all(gross(scope) <= budget for scope, budget in zip(scopes, budgets, strict=True))
    assert all(less.reached <= more.reached for less, more in pairwise(scopes))


def test_a_budget_that_pays_for_it_keeps_under_the_rider_safety_ceiling() -> None:
    """Even where money spent elsewhere would buy more chance."""
    ceiling = rider_ceiling(case_of(tired_four())).at_most
    poor, rich = spent(4_400), spent(5_600)
    assert rider_hazard(poor.case, poor.plan, poor.case.leg) > ceiling
    assert rider_hazard(rich.case, rich.plan, rich.case.leg) <= ceiling


@pytest.mark.parametrize("budget", [100, 4_400, 6_000])
def test_no_budget_leaves_a_must(budget: int) -> None:
    scope = spent(budget)
    assert {node for node in scope.musts.fixed if node[0] != "out"} <= scope.plan.parents.keys()
