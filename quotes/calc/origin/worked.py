"""One option worked out again with all that its figures rest on, so that each can be opened."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.life.horizon import GoodFor
from quotes.calc.money.priced import Priced
from quotes.calc.money.totals import Totals
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.implications import Node, chain
from quotes.calc.scope.must import name_of
from quotes.calc.scope.season import Step
from quotes.calc.sheet.measures import Measures, drive_scope, planned_unit
from quotes.calc.sheet.values import Line, Option
from quotes.calc.shop import Shop


@dataclass(frozen=True)
class Explained:
    """An option as it is shown, with the scope and the measures that made it.

    `measures` are those of its first build, `driven` those of the planned service with its openings made.
    """

    scope: Scope
    measures: Measures
    driven: Measures
    steps: tuple[Step, ...]
    option: Option

    @property
    def case(self) -> Case:
        return self.scope.case

    @property
    def shop(self) -> Shop:
        return self.scope.case.shop

    @property
    def catalogue(self) -> EngineCatalogue:
        return self.scope.case.catalogue

    @property
    def unit(self) -> str:
        """The unit that amounts of use are said in."""
        return planned_unit(self.case)

    @cached_property
    def hazards(self) -> Mapping[str, float]:
        """What each component adds to the hazard of the planned service, shop factor left out."""
        factor = self.shop.shop_factor or 1.0
        return {code: hazard / factor for code, hazard in self.driven.drive.hazards.items()}

    @cached_property
    def lines(self) -> Mapping[str, Priced]:
        """The priced lines by key, hand and discount counted."""
        return {line.key: line for line in self.scope.pricing.lines(self.scope.plan)}

    @cached_property
    def needed(self) -> Mapping[str, Priced]:
        """The lines that are priced and not included, by key."""
        return {line.key: _as_priced(line) for line in self.option.if_needed}

    @cached_property
    def described(self) -> Mapping[str, str]:
        """How the sheet calls its lines, by key."""
        return {line.key: line.description for line in (*self.option.lines, *self.option.if_needed)}

    @cached_property
    def totals(self) -> Totals:
        return self.scope.pricing.totals(self.scope.plan)

    @cached_property
    def bound(self) -> GoodFor:
        return self.measures.good_for()

    def brought_by(self, node: Node) -> str:
        """What brought a node into the plan, from the first cause on, in words."""
        steps = chain(self.scope.plan.parents, node)
        seed = self.scope.plan.seeds.get(steps[0])
        names = [name_of(self.case, step) for step in steps[:-1]]
        cause = seed.sentence if seed else ""
        if not names:
            return cause
        return f"Brought in by {' → '.join(names)}. {cause}".strip()


def _as_priced(line: Line) -> Priced:
    return Priced(
        kind=line.kind,
        code=line.code,
        description=line.description,
        quantity=line.quantity,
        unit=line.unit,
        unit_price=line.unit_price,
        net=line.net,
        low=line.net,
        high=line.net,
        tax_code=line.tax_code,
        component=line.component,
    )


def explain(request: Request, catalogue: EngineCatalogue, shop: Shop, option: Option) -> Explained:
    """Decide the option's scope again; the request must be the one that the option was worked out from."""
    scope = decide(grounds_of(make_case(request, catalogue, shop, option.tier)))
    run = drive_scope(scope)
    return Explained(scope, run.build, run.service, run.course.steps, option)
