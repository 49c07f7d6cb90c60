"""A planned service that takes openings, as a sequence of services, each with its own scope.

The engine is opened at even legs, as few as it allows: a stub at the end would cost a whole opening, and of
parts that wear ever faster even legs lose fewest. Only what was left by hand makes the first leg shorter.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalogue.calc.said import say, to_say
from quotes.calc.life.course import Article
from quotes.calc.life.horizon import (
    HAIR,
    OVER_A_LIFE,
    GoodFor,
    Together,
    ceiling_bound,
    chance_bound,
    first_life,
    legs,
    opens_engine_by_age,
    rider_wears,
)
from quotes.calc.life.wear import Wear
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.freshen import Openings
from quotes.calc.scope.season_case import case_after
from quotes.calc.shop import Shop

MOST_SERVICES = 12
"""More than this nobody plans for one season: the engine does not suit the use."""
STUB = 0.25
"""Nobody opens an engine for less than this share of a leg."""
NOT_ONE_MEETING = to_say("it would not hold for one meeting")
TOO_OFTEN = to_say("it would have to be opened more than {count} times")


@dataclass(frozen=True)
class SeasonStep:
    """One service of the season: its scope, where it begins in the planned service, how long it is."""

    scope: Scope
    begins: float
    use: float


@dataclass(frozen=True)
class Season:
    """The steps in order, one where nothing is opened; `no_plan` says why not, where it ought to be."""

    steps: tuple[SeasonStep, ...]
    no_plan: str = ""

    @property
    def opened(self) -> bool:
        return len(self.steps) > 1


def season_of(scope: Scope, *, meeting: float, openings: Openings | None = None) -> Season:
    """The sequence that follows from the first scope. Nothing is opened for less than one `meeting`.

    `openings`: those of the other options of the same request, to share with.
    """
    use, leg = scope.case.use, scope.case.leg
    steps = [SeasonStep(scope, 0.0, use)]
    length = min(leg, holds_for(scope).use)
    if use - length < STUB * leg:
        return Season(tuple(steps))
    if length < min(leg, meeting):
        return Season(tuple(steps), say(NOT_ONE_MEETING))
    steps, openings = [SeasonStep(scope, 0.0, length)], openings or Openings()
    while (begins := steps[-1].begins + steps[-1].use) < use - HAIR * use:
        to_come = legs(use - begins, leg * OVER_A_LIFE)
        if len(steps) + to_come > MOST_SERVICES:
            return Season((SeasonStep(scope, 0.0, use),), say(TOO_OFTEN, count=MOST_SERVICES - 1))
        length = (use - begins) / to_come
        steps.append(_next(openings, steps[-1], begins, length))
        if steps[-1].use < min(length, meeting):
            return Season((SeasonStep(scope, 0.0, use),), say(NOT_ONE_MEETING))
    return Season(tuple(steps))


def _next(openings: Openings, step: SeasonStep, begins: float, use: float) -> SeasonStep:
    """The service after an opening. One at which nothing falls due is put to use: what would fall due inside
    the engine in a service as long again is renewed.
    """
    scope = openings.scope(case_after(step.scope, ran=step.use, to_run=use))
    if not groups_worked(scope) and (due := _due_within(scope, 2 * use)):
        asked = scope.case.request.model_copy(update={"include": due})
        scope = openings.scope(replace(scope.case, request=asked))
    return SeasonStep(scope, begins, use if _holds(scope, use) else min(use, holds_for(scope).use))


def _due_within(scope: Scope, use: float) -> tuple[str, ...]:
    components = scope.case.catalogue.components
    return tuple(
        code
        for code, wear in _wears(scope).items()
        if opens_engine_by_age(components[code]) and wear.use_left() < use
    )


def groups_worked(scope: Scope) -> frozenset[str]:
    """The groups that a job works on. Gaskets and seals come off with what they close: they are no work."""
    components = scope.case.catalogue.components
    touched = (components[code] for code in scope.plan.new | scope.plan.reconditioned)
    return frozenset(
        each.group
        for each in touched
        if each.judged_by != "disturbed" and each.consequence_class != "session" and not each.service_item
    )


def holds_for(scope: Scope) -> GoodFor:
    """How long a scope keeps to its lives, the shop's floor and the rider-safety ceiling.

    A part left by hand has no life to keep to. Where an aim or a budget was asked for, what was reached for
    it is the floor, if that is lower than the shop's.
    """
    case, wears = scope.case, _wears(scope)
    faults = scope.plan.faults * case.shop.assembly_fault_chance
    life = first_life(_with_a_life(case, wears), case.catalogue, case.use)
    return min(
        replace(life, use=life.use * OVER_A_LIFE),
        ceiling_bound(wears, case.catalogue, case.shop, case.use),
        chance_bound(wears, _lower_floor(scope), case.use, fault_hazard=faults),
        key=lambda bound: bound.use,
    )


def _holds(scope: Scope, use: float) -> bool:
    """Whether a scope holds for a use: the same as `holds_for`, without looking for how long."""
    case, wears = scope.case, _wears(scope)
    riders, factor = rider_wears(wears, case.catalogue), case.shop.shop_factor
    faults = scope.plan.faults * case.shop.assembly_fault_chance
    return (
        use <= first_life(wears, case.catalogue, use).use * OVER_A_LIFE
        and factor * Together(riders).stopping(use) <= -math.log(1.0 - case.shop.rider_safety_ceiling) + HAIR
        and factor * Together(wears).stopping(use) + faults <= -math.log(_lower_floor(scope).chance_floor)
    )


def _wears(scope: Scope) -> dict[str, Wear]:
    return {code: each.wear for code, each in scope.plan.fitted(scope.case).items()}


def _with_a_life(case: Case, wears: dict[str, Wear]) -> dict[str, Wear]:
    return {code: wear for code, wear in wears.items() if code not in case.leave}


def _lower_floor(scope: Scope) -> Shop:
    request, shop = scope.case.request, scope.case.shop
    if request.budget is None and request.target is None:
        return shop
    return replace(shop, chance_floor=min(shop.chance_floor, scope.reached - HAIR))


def articles_of(steps: Sequence[SeasonStep]) -> tuple[Article, ...]:
    """Every article of the season, with the services that it serves by their number from 0.

    Up to the end of its service what stays is one article: an opening neither renews nor proves it.
    """
    found: list[Article] = []
    for code in steps[0].scope.case.levels:
        found += _articles_in(code, steps)
    return tuple(found)


def _articles_in(code: str, steps: Sequence[SeasonStep]) -> list[Article]:
    place: list[Article] = []
    for number, step in enumerate(steps):
        levels, plan = step.scope.case.levels[code], step.scope.plan
        if code in plan.new:
            count = place[-1].number + 1 if place else 1
            place[-1:] = [replace(each, ends=number) for each in place[-1:]]
            place.append(Article(code, count, levels.new, begins=number, ends=len(steps)))
        elif not place:
            back = levels.reconditioned if code in plan.reconditioned else None
            place = [Article(code, 0, back or levels.left, begins=number, ends=len(steps))]
        elif code in plan.reconditioned and levels.reconditioned is not None:
            back_to = {**place[-1].set_back, number: levels.reconditioned.age}
            place[-1] = replace(place[-1], set_back=back_to)
    return place
