"""The damage clock: what share of its life each component has used when the planned service begins."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from catalogue.calc.engine import Component, Duty, EngineCatalogue, Grade, Tier
from quotes.calc.ask.request import Carried, EngineAsked, Reading, Renewal, Request, Segment
from quotes.calc.life.units import YEARLY, per_basis
from quotes.calc.life.wear import load_strength, wear_rate

DAYS_PER_YEAR = 365.25
UNKNOWN_SHARE = 0.5
"""A component of unknown age is counted half used until it is measured; common practice, no source."""
READING_WEIGHT = 0.5
"""How far a reading within limits moves the clock's share; from memory."""


@dataclass(frozen=True, slots=True)
class Used:
    """The share of its life that a component has used, and how that is known."""

    share: float
    known: bool
    measured: bool = False
    clock_share: float | None = None
    measured_share: float | None = None


def fitted_tier(request: Request, catalogue: EngineCatalogue) -> Tier:
    """The tune fitted now: as told, else the last segment's, else standard."""
    engine = request.engine
    code = engine.fitted or (engine.history[-1].tier if engine.history else None)
    if code is None:
        return min(catalogue.tiers.values(), key=lambda tier: tier.rank)
    return catalogue.tiers[code]


def grade_in(tune: Tier, component: str) -> Grade:
    """The grade of part that belongs to a tune."""
    return "performance" if component in tune.performance_grade else "stock"


def used_shares(request: Request, catalogue: EngineCatalogue) -> dict[str, Used]:
    """Share of life used for every component of the engine."""
    return {
        code: _weigh(_clocked(component, request, catalogue), request.readings, code)
        for code, component in catalogue.components.items()
    }


def _clocked(component: Component, request: Request, catalogue: EngineCatalogue) -> Used:
    if carried := request.engine.carried.get(component.code):
        return _brought(carried, component, request, catalogue)
    renewal = request.engine.renewed.get(component.code)
    if request.engine.history is None:
        if renewal is not None and renewal.at == 0:
            return Used(_shelf(component, renewal.on, request.on, catalogue), known=True)
        return Used(UNKNOWN_SHARE, known=False)
    share = sum(
        _segment_share(component, segment, fraction, catalogue)
        for segment, fraction in _since(request.engine, renewal, catalogue)
    )
    since = renewal.on if renewal is not None else None
    return Used(share + _gaps(component, request.engine.history, since, request.on, catalogue), known=True)


def _brought(carried: Carried, component: Component, request: Request, catalogue: EngineCatalogue) -> Used:
    """What a part with an age of its own has used: its stretches count, the engine's do not."""
    if carried.history is None:
        return Used(UNKNOWN_SHARE, known=False)
    share = sum(_segment_share(component, segment, 1.0, catalogue) for segment in carried.history)
    return Used(share + _gaps(component, carried.history, None, request.on, catalogue), known=True)


def _segment_share(
    component: Component, segment: Segment, fraction: float, catalogue: EngineCatalogue
) -> float:
    duty = catalogue.duties[segment.duty]
    tune = catalogue.tiers[segment.tier]
    life = component.lives[duty.basis].typical
    use = float(segment.amount) * per_basis(segment.unit, duty) * fraction
    strength = load_strength(catalogue, component.code, grade_in(tune, component.code))
    dated = segment.start is not None and segment.end is not None
    worn = use * wear_rate(component, duty, tune, strength, time=not dated)
    if segment.start is not None and segment.end is not None:
        worn += fraction * _years(segment.start, segment.end) * _yearly_wear(component, duty)
    return worn / life


def _since(
    engine: EngineAsked, renewal: Renewal | None, catalogue: EngineCatalogue
) -> list[tuple[Segment, float]]:
    """The segments that a component has run in, each with the fraction since it was renewed."""
    history = engine.history or ()
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
) -> float:
    """What the shelf wore between dated segments and since the last one, as a share of life."""
    if "time" not in component.drivers:
        return 0.0
    share = 0.0
    previous_end: date | None = None
    last_duty: Duty | None = None
    for segment in history:
        duty = catalogue.duties[segment.duty]
        if previous_end is not None and segment.start is not None:
            share += _shelf_share(component, _later(previous_end, since), segment.start, last_duty or duty)
        previous_end, last_duty = segment.end, duty
    if previous_end is not None and last_duty is not None:
        share += _shelf_share(component, _later(previous_end, since), on, last_duty)
    return share


def _shelf(component: Component, since: date | None, on: date, catalogue: EngineCatalogue) -> float:
    if since is None:
        return 0.0
    duty = next(iter(catalogue.duties.values()))
    return _shelf_share(component, since, on, duty)


def _shelf_share(component: Component, start: date, end: date, duty: Duty) -> float:
    if end <= start:
        return 0.0
    return _years(start, end) * _yearly_wear(component, duty) / component.lives[duty.basis].typical


def _yearly_wear(component: Component, duty: Duty) -> float:
    return component.drivers.get("time", 0.0) * YEARLY[duty.basis]


def _years(start: date, end: date) -> float:
    return max(0, (end - start).days) / DAYS_PER_YEAR


def _later(first: date, second: date | None) -> date:
    return first if second is None else max(first, second)


def _weigh(clocked: Used, readings: tuple[Reading, ...], component: str) -> Used:
    """The clock's share, moved by the worst reading of the component that is still within its limit."""
    shares = [wear_share(reading) for reading in readings if reading.component == component]
    if not shares:
        return clocked
    worst = max(shares)
    if not clocked.known:
        return Used(worst, known=True, measured=True, measured_share=worst)
    share = READING_WEIGHT * worst + (1.0 - READING_WEIGHT) * clocked.share
    return Used(share, known=True, measured=True, clock_share=clocked.share, measured_share=worst)


def wear_share(reading: Reading) -> float:
    """How far a reading has gone from standard to limit: 0 as new, 1 at the limit, above 1 past it."""
    span = float(reading.limit - reading.standard)
    gone = float(reading.value - reading.standard)
    return max(0.0, gone / span)


def is_past_limit(reading: Reading) -> bool:
    """Whether a reading is on the wrong side of its limit."""
    return reading.value > reading.limit if reading.bad_when == "above" else reading.value < reading.limit
