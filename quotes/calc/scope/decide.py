"""The scope of one option: the must list, then the cheapest plan that reaches the chance asked for."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.budget import for_budget
from quotes.calc.scope.case import Case, unrestricted
from quotes.calc.scope.grounds import Grounds, grounds_of
from quotes.calc.scope.hazards import shown_chance
from quotes.calc.scope.implications import Graph, Node, close
from quotes.calc.scope.must import MustList
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.reach import reaching, safest
from quotes.calc.scope.search import FoundPlan, Search
from quotes.calc.scope.strata import Strata

DEFAULT_TARGET = 0.97
"""Share of what an all-new engine of the tier reaches that is asked for where nothing else is."""
WITHIN_BEST = 0.995
"""Where a target is out of reach, the cheapest plan within half a per cent of the best is given."""
CLOSE_ENOUGH = 0.001
"""A tenth of a per cent, less than is ever shown, counts as reached."""


@dataclass(frozen=True)
class Scope:
    """What was decided for one option."""

    case: Case
    graph: Graph
    musts: MustList
    plan: Plan
    pricing: Pricing
    span: float
    """Use over which the target is judged: the planned service, or the leg to the first opening."""
    target: float | None
    reached: float
    """Chance over the span."""
    best: float
    """The best that could be had over the span."""
    left_by_hand: bool = False
    """The target is not reached for what was left by hand, and nothing else was taken in its place."""
    proven: bool = True
    """The solver has shown that no plan is better; false where its time was up before."""

    @property
    def target_met(self) -> bool:
        return self.target is None or self.reached >= self.target - CLOSE_ENOUGH

    @cached_property
    def strata(self) -> Strata:
        """Hazards season by season over the span."""
        return Strata(self.case, self.span)

    @cached_property
    def must_nodes(self) -> frozenset[Node]:
        """What has to be, whatever anybody asked for."""
        asked = {node for node, must in self.musts.seeds.items() if must.code == "asked"}
        seeds = [node for node in self.musts.seeds if node not in asked]
        return frozenset(close(self.graph, seeds)) if asked else self.musts.nodes

    @cached_property
    def brings(self) -> Mapping[str, frozenset[Node]]:
        """What renewing each component that can be bought brings, by itself."""
        return {
            code: self.graph.brought(("new", code))
            for code in self.case.levels
            if self.case.part(code) is not None
        }

    def price_of_adding(self, nodes: Iterable[Node]) -> float:
        """Net price of what these nodes add to the plan, consumables and rounding left out."""
        held = self.plan.parents
        return sum(self.pricing.quick.get(node, 0.0) for node in nodes if node not in held)


def decide(grounds: Grounds) -> Scope:
    """The scope of one case: deterministic, proven cheapest for the target, or safest for the budget."""
    search = Search(grounds)
    case = search.case
    if case.request.budget is not None:
        return _scope(search, for_budget(search, float(case.request.budget)), target=None)
    asked = case.request.target
    share = search.span / case.use  # each stretch between openings bears its part of an aim for the whole
    target = float(asked) ** share if asked is not None else DEFAULT_TARGET * _all_new(search)
    if case.leave:
        plan = _less_what_is_left(search)
        return replace(_scope(search, FoundPlan(plan), target), left_by_hand=True)
    found = reaching(search, target)
    if found is not None:
        return _scope(search, found, target)
    best = safest(search, [search.under_ceiling]) or FoundPlan(search.least)
    chance = search.strata.chance(best.plan)
    return _scope(search, reaching(search, chance * WITHIN_BEST) or best, target, best=chance)


def _scope(search: Search, found: FoundPlan, target: float | None, *, best: float = 0.0) -> Scope:
    reached = shown_chance(search.case, found.plan, search.span)
    return Scope(
        case=search.case,
        graph=search.graph,
        musts=search.musts,
        plan=found.plan,
        pricing=search.pricing,
        span=search.span,
        target=target,
        reached=reached,
        best=max(best, reached),
        proven=found.proven,
    )


def _less_what_is_left(search: Search) -> Plan:
    """The plan with nothing left by hand, less what is left and what would bring it along.

    Nothing else is taken in its place: who leaves a line wants that line off, not another one on.
    """
    whole = decide(grounds_of(unrestricted(search.case))).plan
    left = {(kind, code) for code in search.case.leave for kind in ("new", "done")}
    seeds = dict(search.musts.seeds)
    for node, must in whole.seeds.items():
        if node not in search.musts.parents and not left & close(search.graph, [node]).keys():
            seeds.setdefault(node, must)
    for node in [node for node in seeds if node in left]:
        del seeds[node]
    return Plan(whole.catalogue, search.graph, seeds, close(search.graph, seeds), search.musts.pieces)


def _all_new(search: Search) -> float:
    """What an engine with nothing old in it reaches, before faults of our own."""
    wears, factor = search.case.new_wears.values(), search.case.shop.shop_factor
    return math.exp(-factor * sum(wear.stopping_hazard(search.span) for wear in wears))
