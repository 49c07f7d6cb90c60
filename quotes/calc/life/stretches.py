"""The stretches of a component's past: how long, how hard, and what share of its life each has used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from catalogue.calc.engine import Component, Duty, EngineCatalogue, Grade, Tier
from quotes.calc.ask.request import Renewal, Segment
from quotes.calc.life.units import YEARLY, per_basis
from quotes.calc.life.wear import load_strength, wear_rate

DAYS_PER_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of a component's past, in the basis unit of its duty.

    `segment` None: it lay or stood still from `start` to `end`, and only the calendar wore it.
    """

    segment: Segment | None
    duty: Duty
    fraction: float
    """The part of the segment that lies after its renewal; 1 for all of it."""
    use: float
    rate: float
    """Reference service that one unit of this use wears."""
    worn: float
    """Reference service used, with what the calendar wore on the way."""
    life: float
    start: date | None = None
    end: date | None = None

    @property
    def share(self) -> float:
        """Share of its life that it used."""
        return self.worn / self.life


def grade_in(tune: Tier, component: str) -> Grade:
    """The grade of part that belongs to a tune."""
    return "performance" if component in tune.performance_grade else "stock"


def stretches(
    component: Component,
    history: tuple[Segment, ...],
    renewal: Renewal | None,
    on: date,
    catalogue: EngineCatalogue,
) -> tuple[Stretch, ...]:
    """What a component has run since it was renewed, and after that what it lay on the shelf until `on`."""
    ran = [_run(component, each, part, catalogue) for each, part in _since(history, renewal, catalogue)]
    since = renewal.on if renewal is not None else None
    return (*ran, *_gaps(component, history, since, on, catalogue))


def on_the_shelf(
    component: Component, since: date | None, on: date, catalogue: EngineCatalogue
) -> tuple[Stretch, ...]:
    """What the calendar has worn of a component that is not known to have run since a day."""
    if since is None:
        return ()
    return tuple(_shelf(component, since, on, next(iter(catalogue.duties.values()))))


def _run(component: Component, segment: Segment, fraction: float, catalogue: EngineCatalogue) -> Stretch:
    duty = catalogue.duties[segment.duty]
    tune = catalogue.tiers[segment.tier]
    use = float(segment.amount) * per_basis(segment.unit, duty) * fraction
    strength = load_strength(catalogue, component.code, grade_in(tune, component.code))
    dated = segment.start is not None and segment.end is not None
    rate = wear_rate(component, duty, tune, strength, catalogue.load_laws, time=not dated)
    worn = use * rate
    if segment.start is not None and segment.end is not None:
        worn += fraction * _years(segment.start, segment.end) * _yearly_wear(component, duty)
    life = component.lives[duty.basis].typical
    return Stretch(segment, duty, fraction, use, rate, worn, life, segment.start, segment.end)


def _since(
    history: tuple[Segment, ...], renewal: Renewal | None, catalogue: EngineCatalogue
) -> list[tuple[Segment, float]]:
    """The segments that a component has run in, each with the fraction since it was renewed."""
    if renewal is None:
        return [(segment, 1.0) for segment in history]
    total = 0.0
    kept: list[tuple[Segment, float]] = []
    at = float(renewal.at)
    for segment in history:
        amount = in_unit(segment, renewal, catalogue)
        before = min(max(at - total, 0.0), amount)
        kept.append((segment, 1.0 - before / amount if amount else 0.0))
        total += amount
    return kept


def in_unit(segment: Segment, renewal: Renewal, catalogue: EngineCatalogue) -> float:
    """A segment's amount in the unit that a renewal was noted in; raises CannotConvert."""
    if segment.unit == renewal.unit:
        return float(segment.amount)
    duty = catalogue.duties[segment.duty]
    return float(segment.amount) * per_basis(segment.unit, duty) / per_basis(renewal.unit, duty)


def _gaps(
    component: Component,
    history: tuple[Segment, ...],
    since: date | None,
    on: date,
    catalogue: EngineCatalogue,
) -> Iterator[Stretch]:
    """What the shelf wore between dated segments and since the last one."""
    if "time" not in component.drivers:
        return
    previous_end: date | None = None
    last_duty: Duty | None = None
    for segment in history:
        duty = catalogue.duties[segment.duty]
        if previous_end is not None and segment.start is not None:
            yield from _shelf(component, _later(previous_end, since), segment.start, last_duty or duty)
        previous_end, last_duty = segment.end, duty
    if previous_end is not None and last_duty is not None:
        yield from _shelf(component, _later(previous_end, since), on, last_duty)


def _shelf(component: Component, start: date, end: date, duty: Duty) -> Iterator[Stretch]:
    if end > start:
        worn = _years(start, end) * _yearly_wear(component, duty)
        life = component.lives[duty.basis].typical
        yield Stretch(None, duty, 1.0, 0.0, 0.0, worn, life, start, end)


def _yearly_wear(component: Component, duty: Duty) -> float:
    return component.drivers.get("time", 0.0) * YEARLY[duty.basis]


def _years(start: date, end: date) -> float:
    return max(0, (end - start).days) / DAYS_PER_YEAR


def _later(first: date, second: date | None) -> date:
    return first if second is None else max(first, second)
