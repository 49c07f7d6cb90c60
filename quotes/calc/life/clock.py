"""The damage clock: what share of its life each component has used when the planned service begins."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import Component, EngineCatalogue, Tier
from quotes.calc.ask.request import Reading, Request
from quotes.calc.life.stretches import Stretch, on_the_shelf, stretches

UNKNOWN_SHARE = 0.5
"""A component of unknown age is counted half used until it is measured; common practice, no source."""
READING_WEIGHT = 0.5
"""How far a reading within limits moves the clock's share; from memory (see "Measured condition")."""


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


def used_shares(request: Request, catalogue: EngineCatalogue) -> dict[str, Used]:
    """Share of life used for every component of the engine."""
    return {
        code: _weigh(_clocked(component, request, catalogue), request.readings, code)
        for code, component in catalogue.components.items()
    }


def clocked(component: Component, request: Request, catalogue: EngineCatalogue) -> tuple[Stretch, ...] | None:
    """The stretches that the clock counts for one component, those on the shelf last; None: unknown."""
    if carried := request.engine.carried.get(component.code):
        if carried.history is None:
            return None
        return stretches(component, carried.history, None, request.on, catalogue)
    renewal = request.engine.renewed.get(component.code)
    if request.engine.history is None:
        if renewal is not None and renewal.at == 0:
            return on_the_shelf(component, renewal.on, request.on, catalogue)
        return None
    return stretches(component, request.engine.history, renewal, request.on, catalogue)


def _clocked(component: Component, request: Request, catalogue: EngineCatalogue) -> Used:
    found = clocked(component, request, catalogue)
    if found is None:
        return Used(UNKNOWN_SHARE, known=False)
    ran = sum(each.share for each in found if each.segment is not None)
    return Used(ran + sum(each.share for each in found if each.segment is None), known=True)


def _weigh(clocked: Used, readings: tuple[Reading, ...], component: str) -> Used:
    """The clock's share, moved by the worst reading of the component.

    Past the limit nothing speaks for the part any more: then the reading counts whole, if it is the worse.
    """
    shares = [wear_share(reading) for reading in readings if reading.component == component]
    if not shares:
        return clocked
    worst = max(shares)
    if not clocked.known:
        return Used(worst, known=True, measured=True, measured_share=worst)
    share = READING_WEIGHT * worst + (1.0 - READING_WEIGHT) * clocked.share
    if worst > 1.0:
        share = max(share, worst)
    return Used(share, known=True, measured=True, clock_share=clocked.share, measured_share=worst)


def wear_share(reading: Reading) -> float:
    """How far a reading has gone from standard to limit: 0 as new, 1 at the limit, above 1 past it."""
    span = float(reading.limit - reading.standard)
    gone = float(reading.value - reading.standard)
    return max(0.0, gone / span)


def is_past_limit(reading: Reading) -> bool:
    """Whether a reading is on the wrong side of its limit."""
    return reading.value > reading.limit if reading.bad_when == "above" else reading.value < reading.limit
