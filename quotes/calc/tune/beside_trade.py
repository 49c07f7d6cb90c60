"""What geometry says of a tier's harm to life beside what the trade says, and why they differ."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import DRIVERS, LOAD_CAUSES, Driver, EngineType, LoadCause, LoadLaw, Tier
from catalogue.calc.said import say, to_say
from quotes.calc.life.wear import Laws
from quotes.calc.tune.gas import bmep_pa
from quotes.calc.tune.loads import (
    Loads,
    OutsideKnownLoads,
    Tuned,
    factor_from_load,
    loads_of,
    tuned,
    tuned_by,
)
from quotes.calc.tune.power import WATTS_PER_HP, gained
from quotes.calc.tune.width import EXPONENT_STEP

FURTHEST_APART = 0.25
"""How far, as a share of geometry's, the trade's factor may lie from it before one of them is doubted. The
trade says round figures: a quarter may as well be a fifth or three tenths, so a fifth of it either way is
rounding; and one power of load more or less moves geometry's by the load ratio, up to a sixth."""
ROUNDING = 0.05
"""Factors this close are the same figure, rounded."""
IN_WORDS: dict[str, str] = {
    "heat": to_say("heat"),
    "shifts": to_say("shifting"),
    "launches": to_say("standing starts"),
    "dirt": to_say("dirt"),
    "time": to_say("age"),
}


@dataclass(frozen=True, slots=True)
class FactorsBeside:
    """One cause of wear under a tier: what is left of a stock part's life, by geometry and by the trade."""

    cause: Driver
    trade: float
    note: str
    load_ratio: float | None = None
    exponent: float | None = None
    less: float | None = None
    """From geometry with one power of load less."""
    from_geometry: float | None = None
    more: float | None = None

    @property
    def apart(self) -> float | None:
        """How far the trade's lies above geometry's, as a share of it; below is negative."""
        return None if self.from_geometry is None else self.trade / self.from_geometry - 1.0

    @property
    def doubtful(self) -> bool:
        return self.apart is not None and abs(self.apart) > FURTHEST_APART


def beside_trade(engine: EngineType, tier: Tier, laws: Laws) -> tuple[FactorsBeside, ...]:
    """Every cause of wear in order. Raises BadGeometry for figures that no engine has."""
    loads = loads_of(engine, tier)
    return tuple(
        _of_load(cause, loads, engine, tier, laws[cause])
        if cause in LOAD_CAUSES and cause in laws
        else _of_trade(cause, tier)
        for cause in DRIVERS
    )


def _of_trade(cause: Driver, tier: Tier) -> FactorsBeside:
    what = say(IN_WORDS.get(cause, cause))
    note = say("Geometry has no figure for {cause}: the trade's stands.", cause=what)
    return FactorsBeside(cause, tier.life_factors.get(cause, 1.0), note)


def _of_load(cause: LoadCause, loads: Loads, engine: EngineType, tier: Tier, law: LoadLaw) -> FactorsBeside:
    load, trade = loads.of(cause), tier.life_factors.get(cause, 1.0)
    try:
        factors = [factor_from_load(load, law.exponent + by) for by in (-EXPONENT_STEP, 0.0, EXPONENT_STEP)]
    except OutsideKnownLoads as outside:
        return FactorsBeside(cause, trade, str(outside), load, law.exponent)
    note = _why(cause, trade, factors[1], loads, engine, tier)
    return FactorsBeside(cause, trade, note, load, law.exponent, *factors)


def _why(cause: LoadCause, trade: float, ours: float, loads: Loads, engine: EngineType, tier: Tier) -> str:
    """Why the trade says otherwise, as far as it can be said."""
    if loads.of(cause) == 1.0 and trade == 1.0:
        return say("The same tune: nothing is lost.")
    if abs(trade - ours) <= ROUNDING:
        return say("The same figure, as the trade rounds.")
    if trade > ours:
        return say(
            "The trade expects less harm: it counts how seldom such an engine is held at its limit, "
            "geometry counts the limit alone."
        )
    if cause == "inertia":
        return say("The trade expects more harm: race cams throw the valves harder than the revs alone do.")
    fuller = 100 * (filling_ratio(engine, tier) - 1)
    return say(
        "The trade expects more harm: compression is not all that raises pressure, cams and ports also fill "
        "the cylinder better, by about {percent} % here.",
        percent=f"{fuller:.0f}",
    )


def filling_ratio(engine: EngineType, tier: Tier) -> float:
    """Mean effective pressure of the tier against standard, at its own revs. Raises BadGeometry."""
    standard, changed = tuned(engine), tuned_by(engine, tier)
    base = engine.crank_power_hp * WATTS_PER_HP
    power = gained(base, tier.power_gain_pct).typical
    return _bmep(power, changed) / _bmep(base, standard)


def _bmep(watts: float, tune: Tuned) -> float:
    return bmep_pa(watts, tune.swept_m3, tune.power_rpm)
