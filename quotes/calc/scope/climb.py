"""Nested plans on the way up, each the best buy there is.

Once bundles have bought enough for a step, those that it can do without are given back, and what is left is
closed exactly.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator

import numpy as np

from quotes.calc.scope.bundles import FREE, Bundles, Vector
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.hazards import rider_hazard
from quotes.calc.scope.implications import Node
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.rules.base import Must
from quotes.calc.scope.search import rider_ceiling

LEAST_GAIN = 0.005
"""Half a per cent of chance: less is not worth a step."""


class Climb:
    """The way up of one scope, weighed by the hazards at its own plan."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.case = scope.case
        self.bundles = Bundles(scope)
        tangent = scope.strata.tangent(scope.strata.of(scope.plan))
        self.gains = self.bundles.gains(tangent.hazards, self.case.shop.assembly_fault_chance)

    def least(self) -> Plan:
        """The least that may be sold: the must list, and what of the option keeps it under the ceiling."""
        musts, ceiling, use = self.scope.musts, rider_ceiling(self.case), self.case.leg
        plan = Plan(self.case.catalogue, self.scope.graph, musts.seeds, musts.parents, musts.pieces)
        if rider_hazard(self.case, self.scope.plan, use) > ceiling.at_most:
            return plan
        gains = self.bundles.gains(ceiling.hazards, 0.0)
        allowed = self.bundles.within(self.of_option)
        while rider_hazard(self.case, plan, use) > ceiling.at_most:
            row = self.bundles.best(self.bundles.held(plan.parents), allowed, gains)
            if row is None:
                return plan
            plan = self._with(plan, [row])
        return plan

    @property
    def of_option(self) -> frozenset[Node]:
        """What the option renews or brings back."""
        return frozenset(node for node in self.scope.plan.parents if node[0] in {"new", "done"})

    @property
    def of_all(self) -> frozenset[Node]:
        """Everything that can be bought or brought back, and is not left by hand."""
        kept = self.case.levels.keys() - self.case.leave
        return frozenset(node for code in kept for node in _levels(code))

    def up_to(self, start: Plan, pool: Collection[Node]) -> list[Plan]:
        """Plans from `start` on, each worth a step, until nothing of the pool buys enough any more."""
        plans: list[Plan] = []
        allowed = self.bundles.within(pool)
        plan, chance = start, self.scope.strata.chance(start)
        base = held = self.bundles.held(plan.parents)
        bought: list[int] = []
        while (row := self.bundles.best(held, allowed, self.gains)) is not None:
            bought.append(row)
            held = np.maximum(held, self.bundles.brings[row])
            needed = math.log1p(LEAST_GAIN / chance)
            if self.bundles.together(bought, base, self.gains)[0] < needed:
                continue
            bigger = self._with(plan, self._needed(bought, base, needed))
            reached = self.scope.strata.chance(bigger)
            if reached >= chance + LEAST_GAIN:
                plan, chance, bought = bigger, reached, []
                plans.append(plan)
                base = held = self.bundles.held(plan.parents)
        return plans

    def _needed(self, bought: list[int], held: Vector, needed: float) -> list[int]:
        """Of what was bought for a step, part by part, what pays.

        The worst buy is given back first, as long as the rest is enough and pays better than that one did.
        """
        kept = self.bundles.inside(bought, held)
        while True:
            gain, price = self.bundles.together(kept, held, self.gains)
            lost, saved = self.bundles.alone(kept, held, self.gains)
            worth = np.where(saved > 0.0, lost / np.maximum(saved, FREE), np.inf)
            worst = int(np.argmin(worth))
            less, cheaper = gain - float(lost[worst]), max(price - float(saved[worst]), FREE)
            if less < needed or not worth[worst] < less / cheaper:
                return kept
            kept.pop(worst)

    def _with(self, plan: Plan, rows: Iterable[int]) -> Plan:
        nodes = [node for row in rows for node in self.bundles.all[row]]
        return plan.with_more([Must(node, "worth_it", "") for node in nodes])


def _levels(code: str) -> Iterator[Node]:
    yield ("new", code)
    yield ("done", code)
