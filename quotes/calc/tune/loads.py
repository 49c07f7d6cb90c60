"""An engine type in a tier's tune: its figures, its loads against standard, and what these leave of a life.

What is assumed: the rev limit and the revs of peak power rise by the tier's `rev_limit_delta_pct` alike,
since race cams move both; the reciprocating mass stays the catalogue's standard one. Light pistons of full
power take their saving off the load of pin, rod and crank in proportion, but nothing off springs, retainers
and chain, which the same factor wears, so it is not counted before a piston has been weighed.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import EngineType, Tier
from catalogue.calc.said import say, say_figure
from quotes.calc.tune.gas import peak_pressure_ratio
from quotes.calc.tune.geometry import clearance_volume_m3, swept_volume_m3
from quotes.calc.tune.kinematics import (
    STANDARD_GRAVITY_M_PER_S2,
    crank_speed_rad_per_s,
    mean_piston_speed_m_per_s,
    peak_piston_acceleration_m_per_s2,
    reciprocating_force_n,
)

LEAST_LOAD, MOST_LOAD = 0.75, 1.30
"""Loads against standard between which life is known to fall as a power of load; from memory. Outside lie
other ways to fail: floating valves, a rod that yields, detonation."""
MM_PER_M = 1000.0
G_PER_KG = 1000.0


class OutsideKnownLoads(ValueError):
    """A load so far from the standard that no life can be said for it."""

    def __init__(self, load_ratio: float) -> None:
        self.load_ratio = load_ratio
        figures = {
            "load": say_figure(load_ratio, 2),
            "least": say_figure(LEAST_LOAD, 2),
            "most": say_figure(MOST_LOAD, 2),
        }
        if load_ratio > MOST_LOAD:
            said = say(
                "This load is {load} of the standard, above what is known ({least} to {most}): no life is "
                "worked out from it.",
                **figures,
            )
        else:
            said = say(
                "This load is {load} of the standard, under what is known ({least} to {most}): no life is "
                "worked out from it.",
                **figures,
            )
        super().__init__(said)


@dataclass(frozen=True, slots=True)
class Tuned:
    """An engine's figures in one tune."""

    compression_ratio: float
    rev_limit_rpm: float
    power_rpm: float
    swept_m3: float
    """Of the whole engine."""
    clearance_m3: float
    """Of one cylinder."""
    piston_speed_m_per_s: float
    acceleration_m_per_s2: float
    acceleration_g: float
    force_n: float
    """On one rod at top dead centre, from the reciprocating mass."""


@dataclass(frozen=True, slots=True)
class Loads:
    """Loads against the standard engine's, 1 for the same tune."""

    inertia: float
    """Reciprocating force at the rev limit."""
    gas: float
    """Peak gas pressure."""

    def of(self, cause: str) -> float:
        """The load behind a cause of wear; 1 where the geometry has nothing to say of it."""
        return {"inertia": self.inertia, "gas": self.gas}.get(cause, 1.0)


def tuned(engine: EngineType, compression_delta: float = 0.0, rev_limit_delta_pct: float = 0.0) -> Tuned:
    """The engine with this change of compression (points) and revs (per cent). Raises BadGeometry."""
    share = 1.0 + rev_limit_delta_pct / 100.0
    stroke_m = engine.stroke_mm / MM_PER_M
    bore_m = engine.bore_mm / MM_PER_M
    limit = engine.rev_limit_rpm * share
    compression = engine.compression_ratio + compression_delta
    acceleration = peak_piston_acceleration_m_per_s2(
        stroke_m / 2.0, engine.rod_length_mm / MM_PER_M, crank_speed_rad_per_s(limit)
    )
    return Tuned(
        compression_ratio=compression,
        rev_limit_rpm=limit,
        power_rpm=engine.power_rpm * share,
        swept_m3=swept_volume_m3(bore_m, stroke_m, engine.cylinders),
        clearance_m3=clearance_volume_m3(swept_volume_m3(bore_m, stroke_m), compression),
        piston_speed_m_per_s=mean_piston_speed_m_per_s(stroke_m, limit),
        acceleration_m_per_s2=acceleration,
        acceleration_g=acceleration / STANDARD_GRAVITY_M_PER_S2,
        force_n=reciprocating_force_n(engine.reciprocating_mass_g / G_PER_KG, acceleration),
    )


def tuned_by(engine: EngineType, tier: Tier) -> Tuned:
    """The engine in a tier's tune. Raises BadGeometry."""
    return tuned(engine, tier.compression_delta, tier.rev_limit_delta_pct)


def loads_of(engine: EngineType, tier: Tier) -> Loads:
    """Loads of a tier against the standard engine. Raises BadGeometry."""
    standard, changed = tuned(engine), tuned_by(engine, tier)
    return Loads(
        inertia=changed.force_n / standard.force_n,
        gas=peak_pressure_ratio(changed.compression_ratio, standard.compression_ratio),
    )


def factor_from_load(load_ratio: float, exponent: float, strength: float = 1.0) -> float:
    """What a load leaves of a life: `(load ratio / strength)^-exponent`, never above 1.

    `strength` is how much more load the grade fitted bears for the same life; a strong part gains no life.
    Raises OutsideKnownLoads for a load ratio outside LEAST_LOAD to MOST_LOAD.
    """
    if not LEAST_LOAD <= load_ratio <= MOST_LOAD:
        raise OutsideKnownLoads(load_ratio)
    return float(min(1.0, (load_ratio / strength) ** -exponent))
