"""What the accepted sheet promised over the part of its service that was really run."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from quotes.calc.sheet.exposure_values import Exposure
from quotes.calc.sheet.values import Option

LEAST_CHANCE = 1e-6


@dataclass(frozen=True, slots=True)
class Promised:
    """Hazards of wear and of our own hands over what was run."""

    wear: float
    hands: float


def promised_over(option: Option, share: float) -> Promised:
    """The hazards over this share of the planned service; beyond the whole of it nothing was promised.

    A sheet of before the hazards were kept has its chance alone: all of it counts as wear, spread evenly.
    """
    share = min(1.0, max(0.0, share))
    exposure = option.exposure
    if exposure is None:
        return Promised(-math.log(max(LEAST_CHANCE, option.chance.value)) * share, 0.0)
    return Promised(exposure.by_wear * reached(exposure, share), exposure.by_hands * share)


def reached(exposure: Exposure, share: float) -> float:
    """The share of the hazard of wear that has come by then, evenly between the parts that are kept."""
    steps = (0.0, *exposure.reached)
    at = share * (len(steps) - 1)
    for part, (before, after) in enumerate(pairwise(steps)):
        if at <= part + 1:
            return before + (after - before) * (at - part)
    return steps[-1]
