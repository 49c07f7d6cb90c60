"""The cheapest plan that reaches a chance, and the safest there is.

The programme is linear and the chance shown a mean over seasons: the programme is given the tangent at a
plan, and again at the plan that it finds, until the two agree.
"""

from __future__ import annotations

import math

from quotes.calc.life.draws import Draws
from quotes.calc.scope.hazards import plan_hazard
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.programme import Bound, Limits
from quotes.calc.scope.search import FoundPlan, Search
from quotes.calc.scope.strata import Tangent

AGREE = 0.0002
"""A tangent that understates the chance of its plan by less than a fiftieth of a per cent will do."""
TANGENTS = 5
"""Two are enough as a rule: each begins at the plan of the last and ends at one no dearer."""


def reaching(search: Search, target: float) -> FoundPlan | None:
    """The cheapest plan whose chance is the target or more; None where there is none."""
    found: FoundPlan | None = None
    at = _towards(search, target)
    for _ in range(TANGENTS):
        tangent = search.strata.tangent(at)
        next_ = _cheapest(search, Bound(tangent.hazards, tangent.bound(target)))
        if next_ is None or (found is not None and next_.plan.parents.keys() == found.plan.parents.keys()):
            break
        found = next_
        at = search.strata.of(found.plan)
        if understated(search, tangent, found.plan) < AGREE:
            break
    return found


def _towards(search: Search, target: float) -> Draws:
    """Hazards of the seasons as they may be at the target: those of the must list, all made less alike."""
    at = search.strata.of(search.least)
    reached = search.strata.chance(search.least)
    return at * (math.log(target) / math.log(reached)) if 0.0 < reached < 1.0 else at


def understated(search: Search, tangent: Tangent, plan: Plan) -> float:
    """How much less than a plan's chance its tangent says, as a share of it; never less than nothing."""
    return tangent.constant + _linear(search, tangent, plan) + math.log(search.strata.chance(plan))


def _cheapest(search: Search, bound: Bound) -> FoundPlan | None:
    """The cheapest plan under a bound; the rider-safety ceiling is asked for only if it binds."""
    free = search.programme.cheapest([bound])
    if free is None:
        return None
    plan = search.plan(free)
    if search.keeps_ceiling(plan):
        return FoundPlan(plan, free.proven)
    held = search.programme.cheapest([bound, search.under_ceiling])
    if held is None:
        return None
    forced = (held.new | held.done) - free.new - free.done
    return FoundPlan(search.plan(held, forced), held.proven)


def safest(search: Search, limits: Limits = ()) -> FoundPlan | None:
    """The plan with the best chance within these limits, of equally safe ones the cheapest."""
    found: FoundPlan | None = None
    at = search.strata.of(search.least)
    for _ in range(TANGENTS):
        chosen = search.programme.safest(search.strata.tangent(at).hazards, limits)
        if chosen is None:
            return None
        plan = search.plan(chosen)
        if found is not None and search.strata.chance(plan) <= search.strata.chance(found.plan):
            break
        found = FoundPlan(plan, chosen.proven)
        at = search.strata.of(plan)
    return found and _cheapest_as_safe(search, found, limits)


def _cheapest_as_safe(search: Search, found: FoundPlan, limits: Limits) -> FoundPlan:
    tangent = search.strata.tangent(search.strata.of(found.plan))
    as_safe = Bound(tangent.hazards, _linear(search, tangent, found.plan))
    chosen = search.programme.cheapest([*limits, as_safe])
    return found if chosen is None else FoundPlan(search.plan(chosen), found.proven and chosen.proven)


def _linear(search: Search, tangent: Tangent, plan: Plan) -> float:
    """Hazards of a plan by a tangent, faults of our own counted."""
    return plan_hazard(tangent.hazards, plan) + plan.faults * search.case.shop.assembly_fault_chance
