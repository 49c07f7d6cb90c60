"""At what age each component is best renewed: by itself, and when the engine is open anyway.

The catalogue's planned life is a habit of renewal; this is what the prices say beside it, for standard tune
and the reference duty, in the unit of the reference life. A failure that gives warning is renewed for the
price of renewing. One that does not (the component's own share) costs what it wrecks besides, and the session
or weekend that is lost.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import Basis, Component, ConsequenceClass, EngineCatalogue
from catalogue.calc.money import round_half_up
from quotes.calc.ask.request import EngineAsked, Planned, Request
from quotes.calc.life.replacement import Law, Replacement, cost_rate, replacement
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.implications import Graph, Node, close
from quotes.calc.scope.plan import Plan
from quotes.calc.shop import Shop


@dataclass(frozen=True, slots=True)
class RenewalCosts:
    """What the customer pays, with tax. `wrecked` and `lost` come on top where it fails without warning."""

    alone: Decimal
    """Parts, all that they bring, and the labour of getting there."""
    while_open: Decimal
    """The same without the labour of getting there."""
    wrecked: Decimal
    """Renewing what it damages, where its failure wrecks the engine."""
    lost: Decimal

    def failed(self, share: float) -> float:
        """The mean cost of a failure of which this share comes without warning."""
        return float(self.alone) + share * float(self.wrecked + self.lost)


@dataclass(frozen=True, slots=True)
class ReplacementAge:
    """One component on one basis: its planned life beside the ages that cost least, in the basis's unit."""

    component: str
    name: str
    consequence: ConsequenceClass
    without_warning: float
    """Share of its failures."""
    planned_life: float
    life_low: float
    life_high: float
    """As the habits of the trade differ; the ages move in proportion."""
    costs: RenewalCosts
    alone: Replacement
    while_open: Replacement | None
    """None: it comes new whenever it is reached."""
    alone_at_planned: float
    """Cost per unit of use, renewed by itself at its planned life."""
    open_at_planned: float
    """The same, renewed at its planned life with the engine open anyway."""

    @property
    def share_alone(self) -> float | None:
        return self.alone.age / self.planned_life if self.alone.age else None

    @property
    def share_open(self) -> float | None:
        age = self.while_open.age if self.while_open else None
        return age / self.planned_life if age else None

    @property
    def apart(self) -> float:
        """How far habit and arithmetic differ with the engine open: twice as long as far as half."""
        return abs(math.log(self.share_open)) if self.share_open else 0.0

    def band(self, age: float) -> tuple[float, float]:
        """An age for the shortest and the longest life that is habit."""
        return age * self.life_low / self.planned_life, age * self.life_high / self.planned_life


def replacement_ages(
    catalogue: EngineCatalogue, shop: Shop, basis: Basis, on: date, only: Collection[str] = ()
) -> tuple[ReplacementAge, ...]:
    """Every component that wears with use and is bought (or those named), in the order of the catalogue.

    None on a basis on which the engine type has not all its lives: nothing is quoted on it either.
    """
    duty = next((each.code for each in catalogue.duties.values() if each.basis == basis), None)
    if duty is None or any(basis not in each.lives for each in catalogue.components.values()):
        return ()
    engine = EngineAsked(type=catalogue.engine_type.code, history=())
    request = Request(on=on, engine=engine, planned=Planned(duty=duty))
    tier = min(catalogue.tiers.values(), key=lambda each: each.rank)
    case = make_case(request, catalogue, shop, tier.code)
    weighed = _Weighed(case)
    return tuple(
        weighed.age_of(component, basis)
        for component in catalogue.components.values()
        if has_an_age(component, basis) and case.part(component.code) and (not only or component.code in only)
    )


def has_an_age(component: Component, basis: Basis) -> bool:
    """Whether it is ever renewed for its age: not what is renewed when disturbed, nor oil and filters."""
    return basis in component.lives and component.judged_by != "disturbed" and not component.service_item


class _Weighed:
    """Prices and lives of one case."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.graph: Graph = graph_of(case)
        self.pricing = Pricing(case)

    def age_of(self, component: Component, basis: Basis) -> ReplacementAge:
        wear, costs = self.case.new_wears[component.code], self._costs(component)
        law, failed = Law(wear.eta, wear.shape), costs.failed(wear.stopping)
        life = component.lives[basis]
        return ReplacementAge(
            component=component.code,
            name=component.name,
            consequence=component.consequence_class,
            without_warning=wear.stopping,
            planned_life=wear.life,
            life_low=life.low,
            life_high=life.high,
            costs=costs,
            alone=replacement(law, float(costs.alone), failed),
            while_open=replacement(law, float(costs.while_open), failed) if costs.while_open else None,
            alone_at_planned=cost_rate(law, wear.life, float(costs.alone), failed),
            open_at_planned=cost_rate(law, wear.life, float(costs.while_open), failed),
        )

    def _costs(self, component: Component) -> RenewalCosts:
        new: Node = ("new", component.code)
        brought = close(self.graph, [new])
        reached = close(self.graph, [("work", code) for code in self._way_in(component, brought)])
        alone = self._price(brought)
        shop = self.case.shop
        return RenewalCosts(
            alone=self._rounded(alone),
            while_open=self._rounded(self._price(node for node in brought if node not in reached)),
            wrecked=self._rounded(self._price(self._wrecked(component, new)) - alone),
            lost=shop.session_loss if component.consequence_class == "session" else shop.weekend_loss,
        )

    def _way_in(self, component: Component, brought: Collection[Node]) -> list[str]:
        taken = [way for way in component.access_any_of if all(("work", o) in brought for o in way)]
        return [*component.access_operations, *(taken[0] if taken else ())]

    def _wrecked(self, component: Component, new: Node) -> Iterable[Node]:
        """All that is renewed after a failure of the component, itself included."""
        known = self.case.catalogue.components
        hurt = component.companions_on_damage if component.consequence_class == "engine" else ()
        return close(self.graph, [new, *(("new", code) for code in hurt if code in known)])

    def _price(self, nodes: Iterable[Node]) -> float:
        plan = Plan(self.case.catalogue, self.graph, {}, dict.fromkeys(nodes), {})
        return self.pricing.quick_gross(plan)

    def _rounded(self, price: float) -> Decimal:
        return round_half_up(Decimal(str(round(price, 6))), self.case.shop.decimals)
