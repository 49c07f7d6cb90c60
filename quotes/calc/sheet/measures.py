"""The figures of a plan over the planned service: chance, rider safety, good for, what is due."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.said import say, say_count
from quotes.calc.ask.request import Unit
from quotes.calc.life.course import Article
from quotes.calc.life.draws import Draws, Fitted
from quotes.calc.life.horizon import GoodFor, good_for, rider_wears, total_stopping
from quotes.calc.life.units import UNITS_OF_BASIS, event, per_basis, season
from quotes.calc.life.wear import Wear
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.freshen import Openings
from quotes.calc.scope.season import Season, SeasonStep, articles_of, season_of
from quotes.calc.sheet.base_values import Likely, Service
from quotes.calc.sheet.chance_values import OWN_HANDS, Chance, Due, HazardShare, WheelLock
from quotes.calc.sheet.drive import Drive, DrivenService, drive

TOP = 10
"""How many causes are named; the rest stand together."""


@dataclass(frozen=True)
class Measures:
    """A plan's figures. `fitted` is every component that counts, as it goes into the first service."""

    case: Case
    fitted: Mapping[str, Fitted]
    drive: Drive
    faults: int
    """Assembly operations of the first job."""
    faults_in_all: int

    @property
    def chance(self) -> float:
        """The mean chance of the planned service."""
        return self.drive.mean

    @property
    def draws(self) -> Draws:
        return self.drive.draws

    @property
    def fault_hazard(self) -> float:
        """Of our own faults in the first job."""
        return self.faults * self.case.shop.assembly_fault_chance

    @cached_property
    def wears(self) -> Mapping[str, Wear]:
        return {code: each.wear for code, each in self.fitted.items()}

    def good_for(self) -> GoodFor:
        case = self.case
        return good_for(self.wears, case.catalogue, case.shop, use=case.use, fault_hazard=self.fault_hazard)


def measure(case: Case, fitted: Mapping[str, Fitted], faults: int) -> Measures:
    """The figures of one build, with so many assembly operations, run through to the end."""
    articles = (Article(code, each.number, each.wear, begins=0, ends=1) for code, each in fitted.items())
    run = _run_of(case, fitted, faults, case.use)
    return Measures(case, fitted, drive(case, articles, (run,), meeting_of(case)), faults, faults)


def measure_season(case: Case, steps: Sequence[SeasonStep]) -> Measures:
    """The figures of a season with its openings made."""
    plans = [step.scope.plan for step in steps]
    fitted = [step.scope.plan.fitted(step.scope.case) for step in steps]
    run = [
        _run_of(case, ran, plan.faults, step.use)
        for step, plan, ran in zip(steps, plans, fitted, strict=True)
    ]
    driven = drive(case, articles_of(steps), run, meeting_of(case))
    return Measures(case, fitted[0], driven, plans[0].faults, sum(plan.faults for plan in plans))


@dataclass(frozen=True)
class Driven:
    """A decided scope as it is driven: its first build alone, and the planned service with openings made."""

    build: Measures
    course: Season
    service: Measures


def drive_scope(scope: Scope, openings: Openings | None = None) -> Driven:
    """Both figures of a scope; where nothing is opened on the way they are one."""
    case = scope.case
    build = measure(case, scope.plan.fitted(case), scope.plan.faults)
    course = season_of(scope, meeting=meeting_of(case), openings=openings)
    return Driven(build, course, measure_season(case, course.steps) if course.opened else build)


def _run_of(case: Case, fitted: Mapping[str, Fitted], faults: int, use: float) -> DrivenService:
    riders = rider_wears({code: each.wear for code, each in fitted.items()}, case.catalogue)
    hazard = case.shop.shop_factor * total_stopping(riders, use)
    return DrivenService(use, faults * case.shop.assembly_fault_chance, hazard)


def planned_unit(case: Case) -> Unit:
    """The unit in which amounts of this case are said: as asked, else distances in the workshop's own."""
    planned, basis = case.request.planned, UNITS_OF_BASIS[case.duty.basis]
    if planned.unit is None and planned.amount is None and basis == "mi":
        return case.shop.distance_unit
    return planned.unit or basis


def in_planned_unit(case: Case, use: float) -> float:
    """An amount in the duty's basis unit, in the unit that was asked in."""
    return use / per_basis(planned_unit(case), case.duty)


def events_planned(case: Case) -> int:
    """How many meetings the planned service is."""
    if case.request.planned.events is not None:
        return case.request.planned.events
    return max(1, round(case.use / event(case.duty))) if event(case.duty) else 1


def meeting_of(case: Case) -> float:
    """Use of one meeting, the planned service divided evenly."""
    return case.use / events_planned(case)


def chance_of(
    measures: Measures, target: float | None, *, met: bool, opening: Likely | None = None
) -> Chance:
    """The chance as shown, with that of the first and the last meeting; our own faults spread over all."""
    driven = measures.drive
    first, last = driven.first_meeting, driven.last_meeting
    return Chance(
        value=driven.whole.value,
        low=driven.whole.low,
        high=driven.whole.high,
        target=target,
        target_met=met,
        events=events_planned(measures.case),
        first_event=first.value,
        first_event_low=first.low,
        first_event_high=first.high,
        last_event=last.value,
        last_event_low=last.low,
        last_event_high=last.high,
        to_first_opening=opening.value if opening else None,
        to_first_opening_low=opening.low if opening else None,
        to_first_opening_high=opening.high if opening else None,
    )


def wheel_lock_of(measures: Measures) -> WheelLock:
    """Chance that a part which can lock the wheel or oil the tyre stops it, in the worst service there is."""
    ceiling = measures.case.shop.rider_safety_ceiling
    held = measures.drive.wheel_locks
    worst = measures.drive.wheel_lock(held.index(max(held)))
    met = worst.value <= ceiling + 1e-6
    return WheelLock(value=worst.value, low=worst.low, high=worst.high, ceiling=ceiling, met=met)


def service(case: Case, use: float) -> Service:
    """An amount for the sheet."""
    return Service(amount=in_planned_unit(case, use), unit=planned_unit(case))


def dues(case: Case, wears: Mapping[str, Wear]) -> list[Due]:
    """Every component with a planned life, the next one due first."""
    found = [_due(case, code, wear) for code, wear in wears.items() if _has_a_due(case, code)]
    return sorted(found, key=lambda due: (due.amount, due.component))


def _has_a_due(case: Case, code: str) -> bool:
    return case.catalogue.components[code].judged_by != "disturbed"


def _due(case: Case, code: str, wear: Wear) -> Due:
    left = wear.use_left()
    return Due(
        component=code,
        name=case.catalogue.components[code].name,
        amount=in_planned_unit(case, left),
        unit=planned_unit(case),
        seasons=left / season(case.duty),
    )


def stops_in_100(measures: Measures) -> dict[str, float]:
    """Engines in 100 that each component stops over the planned service; with faults they add up to all."""
    hazards = measures.drive.hazards
    whole = sum(hazards.values()) + measures.faults_in_all * measures.case.shop.assembly_fault_chance
    stopped = 100.0 * (1.0 - measures.chance)
    return {code: stopped * hazard / whole if whole else 0.0 for code, hazard in hazards.items()}


def where_the_chance_goes(
    measures: Measures, states: Mapping[str, str], stops: Mapping[str, float]
) -> tuple[HazardShare, ...]:
    """The components that stop most engines, our own faults, and all the rest together."""
    components = measures.case.catalogue.components
    ranked = sorted(stops, key=lambda code: (-stops[code], code))
    shares = [
        HazardShare(name=components[c].name, state=states.get(c, "left"), stops_in_100=stops[c], component=c)
        for c in ranked[:TOP]
    ]
    stopped = 100.0 * (1.0 - measures.chance)
    if measures.faults_in_all:
        own = max(0.0, stopped - sum(stops.values()))
        state = say_count("{count} operation", "{count} operations", measures.faults_in_all)
        name = say("Our own hands: faults in assembly")
        shares.append(HazardShare(name=name, state=state, stops_in_100=own, component=OWN_HANDS))
    rest = sum(stops[code] for code in ranked[TOP:])
    return (*shares, HazardShare(name=say("All else together"), state="", stops_in_100=rest))
