"""How pistons move: speed, acceleration and the force that turns them round. SI units.

The acceleration is that of a slider-crank with its first two harmonics (Bosch Automotive Handbook; Taylor,
The Internal-Combustion Engine in Theory and Practice). At both dead centres, where it peaks, what they leave
out is nought; between them it is a few per cent of the peak.
"""

from __future__ import annotations

import math

from catalogue.calc.said import say
from quotes.calc.tune.given import BadGeometry, above

STANDARD_GRAVITY_M_PER_S2 = 9.80665
"""One g, by definition (third General Conference on Weights and Measures, 1901)."""


def crank_speed_rad_per_s(revs_per_min: float) -> float:
    """Angular speed of the crank. Raises BadGeometry for revs of nought or less."""
    above(0.0, revs_per_min=revs_per_min)
    return 2.0 * math.pi * revs_per_min / 60.0


def mean_piston_speed_m_per_s(stroke_m: float, revs_per_min: float) -> float:
    """`2 S N / 60`: two strokes a revolution. Raises BadGeometry for a figure of nought or less."""
    above(0.0, stroke_m=stroke_m, revs_per_min=revs_per_min)
    return 2.0 * stroke_m * revs_per_min / 60.0


def piston_acceleration_m_per_s2(
    crank_radius_m: float, rod_length_m: float, speed_rad_per_s: float, angle_rad: float
) -> float:
    """`r w^2 (cos a + r/l cos 2a)`, toward the crank, at the angle after top dead centre.

    Raises BadGeometry for a figure of nought or less, or a rod no longer than the crank's throw.
    """
    above(0.0, crank_radius_m=crank_radius_m, speed_rad_per_s=speed_rad_per_s)
    if not rod_length_m > crank_radius_m:
        raise BadGeometry(
            say(
                "{name} is {value}: it must be above half the stroke, {least}",
                name="rod_length_m",
                value=f"{rod_length_m:g}",
                least=f"{crank_radius_m:g}",
            )
        )
    shape = math.cos(angle_rad) + crank_radius_m / rod_length_m * math.cos(2.0 * angle_rad)
    return crank_radius_m * speed_rad_per_s**2 * shape


def peak_piston_acceleration_m_per_s2(
    crank_radius_m: float, rod_length_m: float, speed_rad_per_s: float
) -> float:
    """At top dead centre: `r w^2 (1 + r/l)`. Raises as `piston_acceleration_m_per_s2` does."""
    return piston_acceleration_m_per_s2(crank_radius_m, rod_length_m, speed_rad_per_s, 0.0)


def reciprocating_force_n(mass_kg: float, acceleration_m_per_s2: float) -> float:
    """Force on rod and pin that turns a piston round: `m a`. Raises BadGeometry for no mass."""
    above(0.0, mass_kg=mass_kg)
    return mass_kg * acceleration_m_per_s2
