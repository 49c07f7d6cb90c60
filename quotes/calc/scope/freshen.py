"""What an opening of a season renews: what falls due, and what keeps the engine good until the next one.

No programme is solved, for a season has many openings and a quote is spoken on the telephone: what does most
for its money is added until ceiling and floor hold, and what that made needless is given back.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import cached_property

import numpy as np

from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.bundles import Bundle, Bundles
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import WITHIN_BEST, Scope
from quotes.calc.scope.graph_of import graph_of, mendable
from quotes.calc.scope.hazards import Hazards, hazards, plan_hazard, shown_chance
from quotes.calc.scope.implications import Graph, close
from quotes.calc.scope.must import must_list
from quotes.calc.scope.plan import Plan, plan_of
from quotes.calc.scope.rules.base import Must, ReasonCode

Lack = Callable[[Plan], float]
SLACK = 1e-9


class Openings:
    """The openings of the options of one request; they share prices, implications and what can be bought
    together.

    An opening has no lines by hand and leaves nothing out, so its prices are those of its tune, and its
    implications those of what can still be reconditioned.
    """

    def __init__(self, graphs: Iterable[Graph] = ()) -> None:
        self._pricing: dict[str, Pricing] = {}
        self._graphs = {graph.mendable: graph for graph in graphs}
        self._bundles: dict[tuple[str, frozenset[str]], Bundles] = {}

    def scope(self, case: Case) -> Scope:
        """The scope of one opening; `case.request.target` is the floor that it keeps."""
        scope = self._least(case)
        done = _Freshening(scope, self._bundles_of(scope))
        plan = done.plan()
        reached = done.chance(plan)
        return replace(scope, plan=plan, reached=reached, best=reached)

    def _least(self, case: Case) -> Scope:
        can, tune = mendable(case), case.tune.code
        graph = self._graphs[can] = self._graphs.get(can) or graph_of(case)
        pricing = self._pricing[tune] = self._pricing.get(tune) or Pricing(case)
        musts = must_list(case, graph)
        return Scope(
            case=case,
            graph=graph,
            musts=musts,
            plan=plan_of(case, graph, musts),
            pricing=pricing,
            span=case.use,
            target=float(case.request.target or 0),
            reached=0.0,
            best=0.0,
        )

    def _bundles_of(self, scope: Scope) -> Bundles:
        key = scope.case.tune.code, scope.graph.mendable
        if key not in self._bundles:
            self._bundles[key] = Bundles(scope)
        return self._bundles[key]


class _Freshening:
    """The must list of one opening, made good."""

    def __init__(self, scope: Scope, bundles: Bundles) -> None:
        self.case = scope.case
        self.least = scope.plan
        self.bundles = bundles
        self.target = scope.target or 0.0
        self.fault = self.case.shop.assembly_fault_chance
        self.parts = hazards(self.case, self.case.use)
        components = self.case.catalogue.components
        self.riders = {c: each for c, each in self.parts.items() if components[c].locks_wheel_or_oils_tyre}
        self.added: list[tuple[Bundle, ReasonCode]] = []

    def plan(self) -> Plan:
        """What falls due, with what ceiling and floor ask for on top."""
        safe = self._until(self._over_ceiling, self.riders, "rider_safety", self.least, fault=0.0)
        for_safety = list(self.added)
        plan = self._until(self._under_floor, self.parts, "worth_it", safe, fault=self.fault)
        if self._under_floor(plan) > 0.0:  # out of reach: the cheapest near the best, as in a first job
            self.target = self.chance(plan) * math.exp(-self.seasons_differ) * WITHIN_BEST
            self.added = for_safety
            plan = self._until(self._under_floor, self.parts, "worth_it", safe, fault=self.fault)
        return self._without_the_needless(plan)

    def chance(self, plan: Plan) -> float:
        """The chance of a service that is just as hard as planned, as ceiling and floor are judged."""
        return math.exp(-plan_hazard(self.parts, plan) - plan.faults * self.fault)

    @cached_property
    def seasons_differ(self) -> float:
        """Hazard that is added where an aim is judged, over all that the season may turn out to be."""
        if self.target <= self.case.shop.chance_floor:
            return 0.0
        mean = shown_chance(self.case, self.least, self.case.use)
        return math.log(self.chance(self.least) / mean)

    def _over_ceiling(self, plan: Plan) -> float:
        return plan_hazard(self.riders, plan) + math.log(1.0 - self.case.shop.rider_safety_ceiling) - SLACK

    def _under_floor(self, plan: Plan) -> float:
        if not self.target:
            return 0.0
        return math.log(self.target / self.chance(plan)) + self.seasons_differ - SLACK

    def _until(
        self, lack: Lack, of: Mapping[str, Hazards], code: ReasonCode, plan: Plan, *, fault: float
    ) -> Plan:
        gains = self.bundles.gains(of, fault)
        allowed = np.ones(len(self.bundles.all), dtype=bool)
        while (need := lack(plan)) > 0.0:
            held = self.bundles.held(plan.parents)
            row = self.bundles.best(held, allowed, gains, need)
            if row is None:
                return plan
            allowed[row] = False
            self.added.append((self.bundles.all[row], code))
            plan = self._with(plan, self.added[-1:])
        return plan

    def _without_the_needless(self, plan: Plan) -> Plan:
        """Buys given back, the first of them first, as long as ceiling and floor hold without."""
        if self._over_ceiling(plan) > 0.0 or self._under_floor(plan) > 0.0:
            return plan
        for buy in list(self.added[:-1]):
            rest = [each for each in self.added if each is not buy]
            less = self._with(self.least, rest)
            if self._over_ceiling(less) <= 0.0 and self._under_floor(less) <= 0.0:
                plan, self.added = less, rest
        return plan

    def _with(self, plan: Plan, buys: list[tuple[Bundle, ReasonCode]]) -> Plan:
        """The plan with these buys, closed once."""
        seeds = dict(plan.seeds)
        for bundle, code in buys:
            for node in bundle:
                seeds.setdefault(plan.graph.settle(node), Must(node, code, ""))
        return Plan(plan.catalogue, plan.graph, seeds, close(plan.graph, seeds), plan.asked_pieces)
