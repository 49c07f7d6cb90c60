"""Volumes from bore, stroke and compression; metres and cubic metres.

By definition: Heywood, Internal Combustion Engine Fundamentals (1988), chapter 2.
"""

from __future__ import annotations

import math

from quotes.calc.tune.given import above


def swept_volume_m3(bore_m: float, stroke_m: float, cylinders: int = 1) -> float:
    """What the pistons sweep: `pi/4 B^2 S` a cylinder. Raises BadGeometry for a length of nought or less."""
    above(0.0, bore_m=bore_m, stroke_m=stroke_m, cylinders=cylinders)
    return math.pi / 4.0 * bore_m**2 * stroke_m * cylinders


def clearance_volume_m3(swept_m3: float, compression_ratio: float) -> float:
    """What is left above the piston: `Vs / (CR - 1)`. Raises BadGeometry for a ratio of 1 or less."""
    above(0.0, swept_m3=swept_m3)
    above(1.0, compression_ratio=compression_ratio)
    return swept_m3 / (compression_ratio - 1.0)
