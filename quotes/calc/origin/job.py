"""One job and the service after it: the build, an opening on the way, or oil and filter where it is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from catalogue.calc.engine import EngineCatalogue, Grade
from catalogue.calc.said import say
from quotes.calc.ask.request import Unit
from quotes.calc.life.draws import Fitted
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.wear import Wear
from quotes.calc.money.priced import Priced
from quotes.calc.money.pricing import Pricing
from quotes.calc.money.totals import Totals
from quotes.calc.scope.case import Case
from quotes.calc.scope.implications import Node, chain
from quotes.calc.scope.must import name_of
from quotes.calc.scope.plan import Plan
from quotes.calc.sheet.life_values import Fate
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.measures import planned_unit
from quotes.calc.shop import Shop


@dataclass(frozen=True)
class WorkedJob:
    """What is done before a service, what it comes to, and what goes into the service."""

    case: Case
    plan: Plan
    pricing: Pricing
    sums: Totals
    if_needed: tuple[Line, ...]
    lines_shown: tuple[Line, ...]
    """As the sheet calls them; none for an opening, whose lines stand on no sheet."""
    operations: tuple[str, ...]
    """In the order in which they are shown."""
    fitted: Mapping[str, Fitted]
    fates: Mapping[str, Fate]
    """What becomes of the components that do not stay as they are."""
    faults: int
    begins: float
    use: float
    on: date
    """The day from which its dates are counted."""
    number: int = 1
    before: WorkedJob | None = None
    step: int = 0
    """Of the ladder, where it is the job of a step and not of the option."""

    @property
    def shop(self) -> Shop:
        return self.case.shop

    @property
    def catalogue(self) -> EngineCatalogue:
        return self.case.catalogue

    @property
    def unit(self) -> Unit:
        """The unit that amounts of use are said in."""
        return planned_unit(self.case)

    @property
    def planned_ahead(self) -> bool:
        """An opening: its parts are ordered in time, and the bench is free."""
        return self.number > 1

    @cached_property
    def wears(self) -> Mapping[str, Wear]:
        return {code: each.wear for code, each in self.fitted.items()}

    @cached_property
    def lines(self) -> Mapping[str, Priced]:
        """The priced lines by key, hand and discount counted."""
        return {line.key: line for line in self.pricing.lines(self.plan)}

    @cached_property
    def needed(self) -> Mapping[str, Priced]:
        """The lines that are priced and not included, by key."""
        return {line.key: _as_priced(line) for line in self.if_needed}

    @cached_property
    def described(self) -> Mapping[str, str]:
        """How the sheet calls its lines, by key."""
        return {line.key: line.description for line in (*self.lines_shown, *self.if_needed)}

    def key(self, figure: str) -> str:
        """The address of one of its figures. Those of the first job are the option's own."""
        if self.step:
            return f"step:{self.step}:{figure}"
        return figure if self.number == 1 else self.service_key(figure)

    def service_key(self, figure: str = "") -> str:
        """The address of a figure of the service that follows it."""
        return f"service:{self.number}:{figure}" if figure else f"service:{self.number}"

    def grade(self, code: str) -> Grade:
        """The grade of what is in a place: of the tune that it was fitted for."""
        if self.fates.get(code) == "renewed":
            return grade_in(self.case.tune, code)
        return self.before.grade(code) if self.before else grade_in(self.case.fitted, code)

    def brought_by(self, node: Node) -> str:
        """What brought a node into the plan, from the first cause on, in words."""
        steps = chain(self.plan.parents, node)
        seed = self.plan.seeds.get(steps[0])
        names = [name_of(self.case, step) for step in steps[:-1]]
        cause = seed.sentence if seed else ""
        if not names:
            return cause
        return say("Brought in by {names}. {cause}", names=" → ".join(names), cause=cause).strip()


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
