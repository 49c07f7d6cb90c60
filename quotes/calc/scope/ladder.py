"""The ladder: nested steps from the least that may be done to the safest, through the option quoted.

Each step takes what buys most chance for its money, with everything that it brings. Steps of under half a
per cent are merged, and there are never more than twelve.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.scope.decide import Scope
from quotes.calc.scope.hazards import hazards, plan_hazard, shown_chance
from quotes.calc.scope.implications import Node
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.rules.base import Must
from quotes.calc.sheet.values import LadderStep

LEAST_GAIN = 0.005
"""Half a per cent of chance: less is not worth a step."""
MOST_STEPS = 12
FREE = 1.0
"""A bundle that costs nothing is weighed as if it cost one unit of money."""


@dataclass(frozen=True, slots=True)
class Rung:
    """A plan on the way up, with the chance over the scope's span and the price with tax."""

    plan: Plan
    chance: float
    gross: Decimal
    is_option: bool


def ladder(scope: Scope) -> tuple[LadderStep, ...]:
    """The steps of one option; the first is the must list, the last the safest."""
    climb = _Climb(scope)
    least = climb.rung(_least(scope), is_option=False)
    below = climb.up_to(least.plan, scope.plan.new | scope.plan.reconditioned)
    option = climb.rung(scope.plan, is_option=True)
    above = climb.up_to(scope.plan, frozenset(scope.case.levels) - scope.case.leave)
    return _steps([least, *below], option, above)


def _least(scope: Scope) -> Plan:
    musts = scope.musts
    return Plan(scope.case.catalogue, scope.graph, musts.seeds, musts.parents, musts.pieces)


class _Climb:
    """Greedy steps, each the best buy there is.

    A bundle is weighed by what it brings on its own, less what the plan holds; the plan is then closed
    exactly, and its rungs are priced and drawn like every option.
    """

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.case = scope.case
        self.hazards = hazards(self.case, scope.span)
        self.brings = {codes: self._brought(codes) for codes in self._bundles()}

    def rung(self, plan: Plan, *, is_option: bool) -> Rung:
        chance = shown_chance(self.case, plan, self.scope.span)
        return Rung(plan, chance, self.scope.pricing.totals(plan).gross.typical, is_option)

    def up_to(self, start: Plan, pool: frozenset[str]) -> list[Rung]:
        """Rungs from `start` on, until nothing of the pool buys chance any more."""
        rungs: list[Rung] = []
        plan, gained = start, 0.0
        while (codes := self._best_buy(plan, pool - plan.new)) is not None:
            bigger = plan.with_more([Must(("new", code), "worth_it", "") for code in codes])
            gain = self._hazard(plan) - self._hazard(bigger)
            plan, gained = bigger, gained + gain
            if gained >= LEAST_GAIN:
                rungs.append(self.rung(plan, is_option=False))
                gained = 0.0
        return rungs

    def _best_buy(self, plan: Plan, waiting: frozenset[str]) -> tuple[str, ...] | None:
        held = frozenset(plan.parents)
        best: tuple[float, tuple[str, ...]] | None = None
        for codes, brought in self.brings.items():
            if not waiting.issuperset(codes):
                continue
            gain, price = self._weigh(brought - held, plan)
            if gain > 0.0 and (best is None or gain / max(price, FREE) > best[0]):
                best = (gain / max(price, FREE), codes)
        return None if best is None else best[1]

    def _weigh(self, nodes: frozenset[Node], plan: Plan) -> tuple[float, float]:
        """Hazard saved, faults of our own taken off, and the price of what is added."""
        gain, price = 0.0, 0.0
        for node in nodes:
            kind, code = node
            price += self.scope.pricing.quick.get(node, 0.0)
            if kind == "new" and code in self.hazards:
                each = self.hazards[code]
                now = each.done if code in plan.reconditioned and each.done is not None else each.left
                gain += now - each.new
            elif kind == "work" and self.case.catalogue.operations[code].is_assembly:
                gain -= self.case.shop.assembly_fault_chance
        return gain, price

    def _brought(self, codes: tuple[str, ...]) -> frozenset[Node]:
        return frozenset().union(*(self.scope.brings[code] for code in codes))

    def _bundles(self) -> Iterable[tuple[str, ...]]:
        """Single components, and all that share one way in: opening an engine pays for several together."""
        groups: dict[tuple[str, ...], list[str]] = {}
        for code in self.scope.brings:
            yield (code,)
            groups.setdefault(self.case.catalogue.components[code].access_operations, []).append(code)
        for group in groups.values():
            if len(group) > 1:
                yield tuple(group)

    def _hazard(self, plan: Plan) -> float:
        return plan_hazard(self.hazards, plan) + plan.faults * self.case.shop.assembly_fault_chance


def _steps(below: list[Rung], option: Rung, above: list[Rung]) -> tuple[LadderStep, ...]:
    """Rungs joined, thinned to strictly better ones and to twelve at the most, and numbered."""
    rungs = [*_worth_a_step(below, option), option]
    for rung in above:
        if rung.chance >= rungs[-1].chance + LEAST_GAIN and rung.gross > rungs[-1].gross:
            rungs.append(rung)
    while len(rungs) > MOST_STEPS:
        rungs.pop(_least_missed(rungs))
    steps: list[LadderStep] = []
    for number, rung in enumerate(rungs, start=1):
        before = rungs[number - 2] if number > 1 else None
        adds = _added(rung.plan, before.plan if before else None)
        steps.append(
            LadderStep(
                number=number,
                adds=adds,
                names=tuple(rung.plan.catalogue.components[code].name for code in adds),
                more=rung.gross - before.gross if before else rung.gross,
                gross=rung.gross,
                chance=rung.chance,
                is_option=rung.is_option,
            )
        )
    return tuple(steps)


def _worth_a_step(below: list[Rung], option: Rung) -> list[Rung]:
    kept: list[Rung] = []
    for rung in below:
        if rung.gross >= option.gross or rung.chance > option.chance - LEAST_GAIN:
            continue
        if not kept or rung.chance >= kept[-1].chance + LEAST_GAIN:
            kept.append(rung)
    return kept


def _least_missed(rungs: list[Rung]) -> int:
    """The step whose loss blurs the ladder least; the option, the first and the last stay."""
    inner = [n for n in range(1, len(rungs) - 1) if not rungs[n].is_option]
    return min(inner, key=lambda n: rungs[n].chance - rungs[n - 1].chance)


def _added(plan: Plan, before: Plan | None) -> tuple[str, ...]:
    old = (before.new | before.reconditioned) if before else frozenset()
    fresh = (plan.new | plan.reconditioned) - old
    return tuple(code for code in plan.catalogue.components if code in fresh)
