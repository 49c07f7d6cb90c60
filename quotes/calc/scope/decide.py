"""The scope of one option: the must list, then the cheapest plan that reaches the chance asked for."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property

from quotes.calc.life.draws import mean_chance
from quotes.calc.life.horizon import rider_wears
from quotes.calc.life.wear import Wear
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case, unrestricted
from quotes.calc.scope.grounds import Grounds, grounds_of
from quotes.calc.scope.implications import Graph, Node, close
from quotes.calc.scope.must import MustList
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.programme import Chosen, Costs, Hazards, Programme
from quotes.calc.scope.rules.base import Must, ReasonCode
from quotes.calc.shop import LINE_KINDS

DEFAULT_TARGET = 0.97
"""Share of what an all-new engine of the tier reaches that is asked for where nothing else is."""
WITHIN_BEST = 0.995
"""Where a target is out of reach, the cheapest plan within half a per cent of the best is given."""
CLOSE_ENOUGH = 0.001
"""A tenth of a per cent, less than is ever shown, counts as reached."""
SERVICES_AHEAD = 2.0
"""An engine closed now is not to be opened for a part in reach before this many services are run."""
TIGHTENINGS = 5
"""The programme is linear, the chance shown a mean over seasons: the bound is tightened until they agree."""


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

    @property
    def target_met(self) -> bool:
        return self.target is None or self.reached >= self.target - CLOSE_ENOUGH

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
            code: frozenset(close(self.graph, [("new", code)]))
            for code in self.case.levels
            if self.case.part(code) is not None
        }

    def price_of_adding(self, nodes: Iterable[Node]) -> float:
        """Net price of what these nodes add to the plan, consumables and rounding left out."""
        held = self.plan.parents
        return sum(self.pricing.quick.get(node, 0.0) for node in nodes if node not in held)


def decide(grounds: Grounds) -> Scope:
    """The scope of one case: deterministic, proven cheapest for the target, or safest for the budget."""
    return _Decision(grounds).scope()


def shown_chance(case: Case, plan: Plan, use: float) -> float:
    """The mean chance of a plan over `use`, as it is shown."""
    fault_hazard = plan.faults * case.shop.assembly_fault_chance
    return mean_chance(plan.fitted(case), use, shop_factor=case.shop.shop_factor, fault_hazard=fault_hazard)


def hazards(case: Case, use: float, *, riders_only: bool = False) -> dict[str, Hazards]:
    """Stopping hazards of every component over `use` on its three levels."""
    factor = case.shop.shop_factor
    found: dict[str, Hazards] = {}
    for code, levels in case.levels.items():
        if riders_only and not case.catalogue.components[code].locks_wheel_or_oils_tyre:
            continue
        done = (
            levels.reconditioned.stopping_hazard(use) * factor if levels.reconditioned is not None else None
        )
        found[code] = Hazards(
            left=levels.left.stopping_hazard(use) * factor,
            done=done,
            new=levels.new.stopping_hazard(use) * factor,
        )
    return found


class _Decision:
    """The steps of one decision, sharing the programme."""

    def __init__(self, grounds: Grounds) -> None:
        self.case = case = grounds.case
        self.graph = grounds.graph
        self.musts = grounds.musts
        self.least = grounds.least
        self.pricing = Pricing(case)
        self.span = case.leg
        self.stop = hazards(case, self.span)
        self.riders = hazards(case, case.leg, riders_only=True)
        self.programme = Programme(case, self.graph, self.musts, self._costs(), self.stop, self.riders)
        self.ceiling = self._ceiling()

    def scope(self) -> Scope:
        if self.case.request.budget is not None:
            return self._finished(self._for_budget(float(self.case.request.budget)), target=None, best=None)
        all_new = self._all_new()
        asked = self.case.request.target
        share = self.span / self.case.use  # each stretch between openings bears its part of the hazard
        target = float(asked) ** share if asked is not None else DEFAULT_TARGET * all_new
        if self.case.leave:
            return replace(self._finished(self._less_what_is_left(), target, best=None), left_by_hand=True)
        plan = self._reaching(target)
        if plan is not None:
            return self._finished(plan, target, best=None)
        best = shown_chance(self.case, self._with(self._safest()), self.span)
        reached = self._reaching(best * WITHIN_BEST) or self._with(self._safest())
        return self._finished(reached, target, best)

    def _finished(self, plan: Plan, target: float | None, best: float | None) -> Scope:
        reached = shown_chance(self.case, plan, self.span)
        return Scope(
            case=self.case,
            graph=self.graph,
            musts=self.musts,
            plan=plan,
            pricing=self.pricing,
            span=self.span,
            target=target,
            reached=reached,
            best=reached if best is None else max(best, reached),
        )

    def _less_what_is_left(self) -> Plan:
        """The plan with nothing left by hand, less what is left and what would bring it along.

        Nothing else is taken in its place: who leaves a line wants that line off, not another one on.
        """
        whole = _Decision(grounds_of(unrestricted(self.case))).scope().plan
        left = {(kind, code) for code in self.case.leave for kind in ("new", "done")}
        seeds = dict(self.musts.seeds)
        for node, must in whole.seeds.items():
            if node not in self.musts.parents and not left & close(self.graph, [node]).keys():
                seeds.setdefault(node, must)
        for node in [node for node in seeds if node in left]:
            del seeds[node]
        return Plan(whole.catalogue, self.graph, seeds, close(self.graph, seeds), self.musts.pieces)

    def _all_new(self) -> float:
        """What an engine with nothing old in it reaches, before faults of our own."""
        wears = self.case.new_wears
        return math.exp(
            -self.case.shop.shop_factor * sum(w.stopping_hazard(self.span) for w in wears.values())
        )

    def _reaching(self, target: float) -> Plan | None:
        """The cheapest plan whose shown chance is the target; the ceiling is asked for only if it binds."""
        bound = -math.log(target)
        for _ in range(TIGHTENINGS):
            chosen, forced = self._cheapest(bound)
            if chosen is None:
                return None
            plan = self._with(chosen, forced)
            shown = shown_chance(self.case, plan, self.span)
            if shown >= target - CLOSE_ENOUGH:
                return plan
            bound -= math.log(target / shown)
        return None

    def _cheapest(self, bound: float) -> tuple[Chosen | None, frozenset[str]]:
        free = self.programme.cheapest(stop_at_most=bound, rider_at_most=None)
        if free is None or self._rider_hazard(self._with(free)) <= self.ceiling:
            return free, frozenset()
        held = self.programme.cheapest(stop_at_most=bound, rider_at_most=self.ceiling)
        return held, frozenset() if held is None else (held.new | held.done) - free.new - free.done

    def _safest(self) -> Chosen:
        chosen = self.programme.safest(rider_at_most=self.ceiling, gross_at_most=None)
        return chosen or Chosen(frozenset(), frozenset(), frozenset(), frozenset())

    def _for_budget(self, gross: float) -> Plan:
        """The safest plan whose price with tax keeps within the budget; the must list where nothing does.

        The programme does not see consumables, rounding and what was set by hand: what they come to is
        taken off the budget until the sum on the quote keeps within it.
        """
        unseen = 0.0
        for _ in range(TIGHTENINGS):
            chosen = self.programme.safest(rider_at_most=None, gross_at_most=gross - unseen)
            if chosen is None:
                break
            plan = self._with(chosen)
            total = float(self.pricing.totals(plan).gross.typical)
            if total <= gross:
                return plan
            unseen = max(unseen + 1e-6, total - self.pricing.quick_gross(plan))
        return self.least

    def _ceiling(self) -> float:
        """The rider-safety ceiling as a hazard, or the least that can be had where that is more."""
        asked = -math.log(1.0 - self.case.shop.rider_safety_ceiling)
        least = 0.0
        for code, each in self.riders.items():
            reachable = [each.left]
            if code not in self.case.leave:
                reachable += [each.new] if self.case.part(code) is not None else []
                reachable += [each.done] if each.done is not None else []
            least += min(reachable)
        return max(asked, least + 1e-9)

    def _rider_hazard(self, plan: Plan) -> float:
        return rider_hazard(self.case, plan, self.case.leg)

    def _costs(self) -> Costs:
        case, pricing = self.case, self.pricing
        return Costs(
            article={c: float(p) for c in case.catalogue.components if (p := pricing.article(c)) is not None},
            piece={c: float(p) for c in case.catalogue.components if (p := pricing.piece(c)) is not None},
            operation={o: float(pricing.operation(o)) for o in case.catalogue.operations},
            machine_work={m: float(pricing.machine_work_piece(m)) for m in case.catalogue.machine_work},
            coming_back=_coming_back(case, self.graph, pricing),
            tax_share={kind: pricing.tax_share(kind) for kind in LINE_KINDS},
        )

    def _with(self, chosen: Chosen, forced: frozenset[str] = frozenset()) -> Plan:
        """The must list with what was chosen on top, each with the reason that bought it."""
        extras: list[tuple[Node, float]] = [
            *((("new", c), self._gain(c, new=True)) for c in chosen.bought),
            *((("done", c), self._gain(c, new=False)) for c in chosen.done - chosen.new),
        ]
        extras.sort(key=lambda extra: (-extra[1], extra[0]))
        demands = [self._reason(node, gain, node[1] in forced) for node, gain in extras]
        return self.least.with_more(demands)

    def _gain(self, code: str, *, new: bool) -> float:
        each = self.stop.get(code)
        if each is None:
            return 0.0
        after = each.new if new or each.done is None else each.done
        return each.left - after

    def _reason(self, node: Node, gain: float, forced: bool) -> Must:
        code: ReasonCode = "rider_safety" if forced else "worth_it"
        stops = 100.0 * gain
        bought = "under 1" if stops < 1.0 else f"about {stops:.0f}"
        if forced:
            return Must(
                node, code, "Keeps the chance of a locked wheel or oil on the tyre under its ceiling."
            )
        back = self.programme.costs.coming_back.get(node[1], 0.0)
        if stops < 1.0 and back > 0.0:
            return Must(
                node,
                "coming_back",
                "In reach now, and its life ends before the engine would be opened again.",
            )
        return Must(node, code, f"Saves {bought} in 100 from being stopped.")


def rider_hazard(case: Case, plan: Plan, use: float) -> float:
    """Stopping hazard of the parts that can lock the wheel or oil the tyre, after a plan."""
    wears: Mapping[str, Wear] = {code: each.wear for code, each in plan.fitted(case).items()}
    riders = rider_wears(wears, case.catalogue)
    return case.shop.shop_factor * sum(wear.stopping_hazard(use) for wear in riders.values())


def _coming_back(case: Case, graph: Graph, pricing: Pricing) -> dict[str, float]:
    """Price of reaching a component again whose planned life ends within this service and one more like it.

    It is certain to fall due by then, so the expected price is the whole labour of getting back to it.
    """
    found: dict[str, float] = {}
    for code, levels in case.levels.items():
        component = case.catalogue.components[code]
        wear = levels.left
        if component.judged_by == "disturbed" or not component.access_operations:
            continue
        if wear.age + wear.rate * SERVICES_AHEAD * case.leg > wear.life:
            found[code] = float(_price_of_reaching(code, graph, pricing))
    return found


def _price_of_reaching(code: str, graph: Graph, pricing: Pricing) -> Decimal:
    nodes = close(graph, [("work", o) for o in pricing.case.catalogue.components[code].access_operations])
    return sum((pricing.operation(o) for kind, o in nodes if kind == "work"), Decimal(0))
