"""The width of the model: the chance of one service with the loads of its tune reckoned otherwise.

Only what the service wears is reckoned anew; the ages that parts come with stay as they are.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from catalogue.calc.engine import LOAD_CAUSES, Driver, Duty, EngineCatalogue, LoadCause, Tier
from quotes.calc.life.clock import grade_in
from quotes.calc.life.draws import Draws, Fitted, duty_factors
from quotes.calc.life.wear import Laws, Wear, life_factor, load_strength
from quotes.calc.tune.loads import Loads, factor_from_load

STRENGTH_STEP = 0.05
"""How far the strength of every grade may be off: a race part that bears 15 % more may bear 10 or 20."""
EXPONENT_STEP = 1.0


@dataclass(frozen=True, slots=True)
class Otherwise:
    """One other way of reckoning the loads of a tune."""

    strength_by: float = 0.0
    exponent_by: float = 0.0
    from_geometry: bool = False


WAYS = {
    "strength_less": Otherwise(strength_by=-STRENGTH_STEP),
    "strength_more": Otherwise(strength_by=STRENGTH_STEP),
    "exponent_less": Otherwise(exponent_by=-EXPONENT_STEP),
    "exponent_more": Otherwise(exponent_by=EXPONENT_STEP),
    "from_geometry": Otherwise(from_geometry=True),
}


@dataclass(frozen=True, slots=True)
class Running:
    """What a service is run on: catalogue, duty, the tune it is run in and the tune the engine came in."""

    catalogue: EngineCatalogue
    duty: Duty
    tune: Tier
    came_in: Tier
    loads: Loads


@dataclass(frozen=True, slots=True)
class Served:
    """The service: its use in the basis unit, and what its hazard is scaled by and added to."""

    use: float
    shop_factor: float = 1.0
    fault_hazard: float = 0.0


def chances_otherwise(fitted: Mapping[str, Fitted], running: Running, served: Served) -> dict[str, float]:
    """The mean chance by each of WAYS, and as it is reckoned under `value`. Raises OutsideKnownLoads."""
    codes = list(fitted)
    logs = season_logs([fitted[code].wear for code in codes], served)
    whole = logs.sum(axis=0)
    found = {"value": _mean(whole, served)}
    for name, way in WAYS.items():
        rates = rates_otherwise(fitted, running, way)
        changed = [place for place, code in enumerate(codes) if rates[code] != fitted[code].wear.rate]
        wears = [replace(fitted[codes[place]].wear, rate=rates[codes[place]]) for place in changed]
        anew = season_logs(wears, served).sum(axis=0) - logs[changed].sum(axis=0) if changed else 0.0
        found[name] = _mean(whole + anew, served)
    return found


def season_logs(wears: Sequence[Wear], served: Served) -> Draws:
    """Shape (parts, SEASONS): logarithm of each part's mean chance in each stratum of the duty factor."""

    def column(of: str) -> Draws:
        return np.array([getattr(wear, of) for wear in wears], dtype=np.float64).reshape(-1, 1)

    age, shape = column("age"), column("shape")
    damage = (age + column("rate") * served.use * duty_factors()) ** shape - age**shape
    weight = column("stopping") * damage / column("prior_scale")
    return np.asarray(-column("evidence") * np.log1p(served.shop_factor * weight))


def _mean(logarithm: Draws, served: Served) -> float:
    return float(np.exp(logarithm - served.fault_hazard).mean())


def rates_otherwise(
    fitted: Mapping[str, Fitted], running: Running, way: Otherwise = Otherwise()
) -> dict[str, float]:
    """The rate of wear of every part by another way of reckoning. Raises OutsideKnownLoads."""
    laws = {
        cause: replace(law, exponent=law.exponent + way.exponent_by)
        for cause, law in running.catalogue.load_laws.items()
    }
    factors: dict[Driver, float] = {
        cause: _factor(cause, running, way) for cause in LOAD_CAUSES if cause in laws
    }
    tune = replace(running.tune, life_factors={**running.tune.life_factors, **factors})
    return {code: _rate(code, part, running, way, tune, laws) for code, part in fitted.items()}


def _factor(cause: LoadCause, running: Running, way: Otherwise) -> float:
    """What the tune leaves of a stock part's life: from geometry, or the trade's moved with the exponent."""
    load = running.loads.of(cause)
    if way.from_geometry:
        return factor_from_load(load, running.catalogue.load_laws[cause].exponent)
    trade = running.tune.life_factors.get(cause, 1.0)
    return float(min(max(1.0, trade), trade * load**-way.exponent_by))


def _rate(code: str, part: Fitted, running: Running, way: Otherwise, tune: Tier, laws: Laws) -> float:
    """The part's rate, with what its loads wear taken out and put in anew."""
    catalogue, rate = running.catalogue, part.wear.rate
    drivers = catalogue.components[code].drivers
    grade = grade_in(running.tune if part.article == "new" else running.came_in, code)
    strength = load_strength(catalogue, code, grade)
    listed = grade == "performance" and code in catalogue.grade_strength
    other = strength + way.strength_by if listed else strength
    for cause in LOAD_CAUSES:
        if share := drivers.get(cause, 0.0):
            was = life_factor(cause, running.tune, strength, catalogue.load_laws)
            now = life_factor(cause, tune, other, laws)
            if now != was:
                rate += share * running.duty.severity.get(cause, 1.0) * (1.0 / now - 1.0 / was)
    return rate
