"""What the gas does: pressure, work and fuel of a four-stroke. SI units.

Mean effective pressure, torque and power by definition (Heywood 1988, chapter 2; Pulkrabek, Engineering
Fundamentals of the Internal Combustion Engine, chapter 2); the Otto cycle as in Cengel and Boles.
"""

from __future__ import annotations

import math

from quotes.calc.tune.given import above

PRESSURE_EXPONENT = 1.3
"""Peak pressure goes with this power of compression: polytropic compression of the charge; from memory."""
GAMMAS = (1.27, 1.30)
"""Ratio of specific heats of burnt and of fresh mixture, as one figure for the cycle; from memory."""
PASCALS_PER_BAR = 1e5


def peak_pressure_ratio(compression_ratio: float, standard_ratio: float) -> float:
    """Peak gas pressure against the standard engine's, the same charge in both: `(CR / CR0)^1.3`.

    Raises BadGeometry for a ratio of 1 or less.
    """
    above(1.0, compression_ratio=compression_ratio, standard_ratio=standard_ratio)
    return float((compression_ratio / standard_ratio) ** PRESSURE_EXPONENT)


def bmep_pa(power_w: float, swept_m3: float, revs_per_min: float) -> float:
    """Brake mean effective pressure of a four-stroke: `120 P / (Vd N)`. Raises BadGeometry."""
    above(0.0, power_w=power_w, swept_m3=swept_m3, revs_per_min=revs_per_min)
    return 120.0 * power_w / (swept_m3 * revs_per_min)


def torque_nm(mean_pressure_pa: float, swept_m3: float) -> float:
    """Torque of a four-stroke: `bmep Vd / 4 pi`. Raises BadGeometry for a figure of nought or less."""
    above(0.0, mean_pressure_pa=mean_pressure_pa, swept_m3=swept_m3)
    return mean_pressure_pa * swept_m3 / (4.0 * math.pi)


def power_w(mean_pressure_pa: float, swept_m3: float, revs_per_min: float) -> float:
    """Power of a four-stroke: `bmep Vd N / 120`. Raises BadGeometry for a figure of nought or less."""
    above(0.0, mean_pressure_pa=mean_pressure_pa, swept_m3=swept_m3, revs_per_min=revs_per_min)
    return mean_pressure_pa * swept_m3 * revs_per_min / 120.0


def fuel_kg_per_h(power_w: float, bsfc_kg_per_kwh: float) -> float:
    """Fuel burnt at this power for its brake specific fuel consumption. Raises BadGeometry."""
    above(0.0, power_w=power_w, bsfc_kg_per_kwh=bsfc_kg_per_kwh)
    return power_w / 1000.0 * bsfc_kg_per_kwh


def otto_efficiency(compression_ratio: float, gamma: float) -> float:
    """Air-standard efficiency: `1 - CR^(1 - g)`. Raises BadGeometry for a ratio or gamma of 1 or less."""
    above(1.0, compression_ratio=compression_ratio, gamma=gamma)
    return float(1.0 - compression_ratio ** (1.0 - gamma))


def otto_gain(compression_ratio: float, standard_ratio: float, gamma: float) -> float:
    """Efficiency against the standard engine's: `(1 - CR2^(1-g)) / (1 - CR1^(1-g))`. Raises BadGeometry."""
    return otto_efficiency(compression_ratio, gamma) / otto_efficiency(standard_ratio, gamma)


def compression_gain_at_most_pct(compression_ratio: float, standard_ratio: float) -> float:
    """Most power, per cent, that compression alone can give: a cycle without heat loss or knock.

    The larger of the gains at both GAMMAS. Raises BadGeometry for a ratio of 1 or less.
    """
    return max(100.0 * (otto_gain(compression_ratio, standard_ratio, gamma) - 1.0) for gamma in GAMMAS)
