"""The programme of one case with what it is searched by: hazards, ceiling, and why each part is bought."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.said import say
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import costs_of
from quotes.calc.scope.grounds import Grounds
from quotes.calc.scope.hazards import hazards, rider_hazard
from quotes.calc.scope.implications import Node
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.programme import Bound, Chosen, Programme
from quotes.calc.scope.rules.base import Must
from quotes.calc.scope.strata import Strata


@dataclass(frozen=True)
class FoundPlan:
    """A plan, and whether the solver has proven that nothing is better."""

    plan: Plan
    proven: bool = True


def rider_ceiling(case: Case) -> Bound:
    """The rider-safety ceiling as a bound, or the least that can be had where that is more."""
    riders = hazards(case, case.leg, riders_only=True)
    asked = -math.log(1.0 - case.shop.rider_safety_ceiling)
    least = 0.0
    for code, each in riders.items():
        reachable = [each.left]
        if code not in case.leave:
            reachable += [each.new] if case.part(code) is not None else []
            reachable += [each.done] if each.done is not None else []
        least += min(reachable)
    return Bound(riders, max(asked, least + 1e-9), faults=False)


class Search:
    """What every search of one case shares; `span` is the use over which its target is judged."""

    def __init__(self, grounds: Grounds) -> None:
        self.case = case = grounds.case
        self.graph = grounds.graph
        self.musts = grounds.musts
        self.least = grounds.least
        self.pricing = Pricing(case)
        self.span = case.leg
        self.strata = Strata(case, self.span)
        self.programme = Programme(
            case, grounds.graph, grounds.musts, costs_of(case, grounds.graph, self.pricing)
        )

    @cached_property
    def under_ceiling(self) -> Bound:
        """The rider-safety ceiling."""
        return rider_ceiling(self.case)

    def keeps_ceiling(self, plan: Plan) -> bool:
        """Whether a plan keeps under the rider-safety ceiling."""
        return rider_hazard(self.case, plan, self.case.leg) <= self.under_ceiling.at_most

    def plan(self, chosen: Chosen, forced: frozenset[str] = frozenset()) -> Plan:
        """The must list with what was chosen on top, each with the reason that bought it.

        `forced` is what only the rider-safety ceiling asked for.
        """
        gains = self._gains
        extras: list[tuple[Node, float]] = [
            *((("new", c), gains.get(("new", c), 0.0)) for c in chosen.bought),
            *((("done", c), gains.get(("done", c), 0.0)) for c in chosen.done - chosen.new),
        ]
        extras.sort(key=lambda extra: (-extra[1], extra[0]))
        return self.least.with_more([self._reason(node, gain, forced) for node, gain in extras])

    @cached_property
    def _gains(self) -> dict[Node, float]:
        """Hazard saved over the span by each component, new and reconditioned."""
        found: dict[Node, float] = {}
        for code, each in hazards(self.case, self.span).items():
            found["new", code] = each.left - each.new
            found["done", code] = each.left - (each.new if each.done is None else each.done)
        return found

    def _reason(self, node: Node, gain: float, forced: frozenset[str]) -> Must:
        if node[1] in forced:
            return Must(
                node,
                "rider_safety",
                say("Keeps the chance of a locked wheel or oil on the tyre under its ceiling."),
            )
        stops = 100.0 * gain
        back = self.programme.costs.coming_back.get(node[1], 0.0)
        if stops < 1.0 and back > 0.0:
            return Must(
                node,
                "coming_back",
                say("In reach now, and its life ends before the engine would be opened again."),
            )
        return Must(node, "worth_it", _buys(stops, self.case.request.budget is not None))


def _buys(stops: float, budget: bool) -> str:
    """What a part buys; one that buys little by itself is taken for what the whole list comes to."""
    if stops >= 1.0:
        return say("Saves about {count} in 100 from being stopped.", count=f"{stops:.0f}")
    if budget:
        return say("Saves under 1 in 100 by itself; with the others it makes the most of the budget.")
    return say("Saves under 1 in 100 by itself; with the others it is the cheapest way towards the aim.")
