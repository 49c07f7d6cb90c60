"""What falls due next on an engine, for the use it is put to: amount, day, and before which meeting."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from catalogue.calc.engine import Component, Duty, EngineCatalogue
from catalogue.calc.said import to_say
from quotes.calc.ask.request import EngineAsked, Planned, Request, Unit
from quotes.calc.life.clock import fitted_tier, used_shares
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.units import UNITS_OF_BASIS, event, per_basis, season
from quotes.calc.scope.case import wear_at

Act = Literal["renew", "measure", "change"]
ACT_IN_WORDS: dict[Act, str] = {
    "renew": to_say("renew"),
    "measure": to_say("measure"),
    "change": to_say("replace"),
}
DAYS_A_YEAR = 365.25
AT_THE_SAME_OPENING = 0.25
"""What falls due within this share of its own life after the first is taken along; from memory."""


@dataclass(frozen=True, slots=True)
class NextDue:
    """One component: `amount` of `unit` until its planned life is reached; 0 where it is past.

    `on` assumes the duty's usual season spread over the year, from the day asked; `before_event` counts the
    duty's usual meetings from there.
    """

    component: str
    name: str
    act: Act
    amount: float
    unit: Unit
    life: float
    """The whole life in the same unit and use."""
    used_pct: float
    on: date
    before_event: int | None


def next_due(
    engine: EngineAsked, duty: str, catalogue: EngineCatalogue, *, on: date, unit: Unit | None = None
) -> tuple[NextDue, ...]:
    """Every component with a planned life, the next one due first; empty where its history is not known.

    Amounts in `unit`, else in the unit of the duty's basis. CannotConvert where the history is in a unit
    that says nothing about its duty.
    """
    if engine.history is None:
        return ()
    use = catalogue.duties[duty]
    request = Request(on=on, engine=engine, planned=Planned(duty=duty))
    tune, used = fitted_tier(request, catalogue), used_shares(request, catalogue)
    said: Unit = unit or UNITS_OF_BASIS[use.basis]
    factor = per_basis(said, use)
    found = []
    for code, component in catalogue.components.items():
        if not _has_a_life(component, use):
            continue
        share = used[code].share
        grade = grade_in(tune, code)
        wear = wear_at(catalogue, request, code, share, grade=grade, tune=tune, duty=use)
        if wear.rate <= 0:
            continue
        left = wear.use_left()
        found.append(
            NextDue(
                component=code,
                name=component.name,
                act=_act(component),
                amount=left / factor,
                unit=said,
                life=wear.life / wear.rate / factor,
                used_pct=100.0 * share,
                on=_day(on, left, use),
                before_event=_event(left, use),
            )
        )
    return tuple(sorted(found, key=lambda due: (due.amount, due.component)))


def _has_a_life(component: Component, duty: Duty) -> bool:
    named = component.judged_by != "disturbed" or component.service_item
    return named and duty.basis in component.lives


def _act(component: Component) -> Act:
    if component.service_item:
        return "change"
    return "renew" if component.judged_by == "life" else "measure"


def _day(on: date, left: float, duty: Duty) -> date:
    a_year = season(duty)
    days = left / a_year * DAYS_A_YEAR if a_year else 0.0
    return on + timedelta(days=min(math.floor(days), 36_500))


def _event(left: float, duty: Duty) -> int | None:
    """The meeting before which it must be done: the first that it would not see the end of."""
    each = event(duty)
    return math.floor(left / each + 1e-9) + 1 if each else None


def bundle(dues: Sequence[NextDue], catalogue: EngineCatalogue) -> tuple[NextDue, ...]:
    """What to take along when the engine is opened for the first that is due inside it.

    Those that fall due soon after, by a share of their own life, and lie behind the same way in. Empty where
    nothing inside is due. Oil and filters go with every opening and are not named.
    """
    inside = [due for due in dues if due.act != "change"]
    if not inside:
        return ()
    first = inside[0]
    opened = _way_in(catalogue.components[first.component], catalogue)
    return tuple(
        due
        for due in inside
        if due.amount <= first.amount + AT_THE_SAME_OPENING * due.life
        and _way_in(catalogue.components[due.component], catalogue) <= opened
    )


def _way_in(component: Component, catalogue: EngineCatalogue) -> set[str]:
    """The operations that reach a component, with all that they require, by the shortest way."""
    shortest = min(component.access_any_of, key=len) if component.access_any_of else ()
    todo = [*component.access_operations, *shortest]
    reached: set[str] = set()
    while todo:
        code = todo.pop()
        if code not in reached and code in catalogue.operations:
            reached.add(code)
            todo.extend(catalogue.operations[code].requires)
    return reached
