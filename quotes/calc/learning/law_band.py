"""Likelihood-ratio bounds around a fitted law: how little and how much may have failed by each age.

All laws belong whose log-likelihood lies within half a chi-square quantile of the highest. The bound at an
age is the furthest that any of them goes there: the likelihood of a share failed with the shape that suits it
best (Lawless 1982; Meeker and Escobar 1998, chapter 8). On Weibull axes a law is `ln theta + beta ln t`, so
all that is needed of the region is its edge: for each shape the least and the greatest theta.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from quotes.calc.life.bounds import Bounds, crossing, drop
from quotes.calc.life.fit import Fit
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.likelihood import Ages, Floats, ages_of, best_log_theta, log_likelihood

SHAPES = 65
"""Shapes at which the edge is found; they lie closer together towards its ends, where it turns."""
AGES = 33
"""Ages at which the band is drawn."""
FURTHEST = 1e4
"""How far the logarithm of theta is followed: further than any edge lies."""


@dataclass(frozen=True, slots=True)
class LawBand:
    """Shares failed by each age, at least and at most, with this confidence at each age by itself."""

    confidence: float
    ages: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


def law_band(data: LifeData, fitted: Fit, bounds: Bounds, ages: Sequence[float]) -> LawBand | None:
    """The band at these ages; None where the shape has no bound, and so the band no edge."""
    if bounds.beta_low is None or bounds.beta_high is None:
        return None
    scaled = ages_of(data)
    floor = fitted.log_likelihood - drop(bounds.confidence)
    shapes = _shapes(bounds.beta_low, bounds.beta_high)
    edges = np.array([_edge(scaled, float(shape), floor) for shape in shapes])
    across = np.log(np.array(ages) / scaled.scale)
    low = [-_highest(-edges[:, 0] - shapes * each) for each in across]
    high = [_highest(edges[:, 1] + shapes * each) for each in across]
    return LawBand(bounds.confidence, tuple(ages), tuple(map(_share, low)), tuple(map(_share, high)))


def ages_between(first: float, last: float) -> tuple[float, ...]:
    """The ages of a band, evenly spaced in their logarithm."""
    return tuple(float(age) for age in np.geomspace(first, last, AGES))


def _shapes(low: float, high: float) -> Floats:
    """From one bound of the shape to the other: spaced as the edge of a circle, seen from its side."""
    middle, half = (math.log(high) + math.log(low)) / 2, (math.log(high) - math.log(low)) / 2
    return np.exp(middle - half * np.cos(np.linspace(0.0, math.pi, SHAPES)))


def _edge(ages: Ages, shape: float, floor: float) -> tuple[float, float]:
    """The least and the greatest logarithm of theta within the region; at its ends they are one."""
    best = best_log_theta(ages, shape)

    def above(log_theta: float) -> float:
        return log_likelihood(ages, shape, log_theta) - floor

    if above(best) <= 0.0:
        return best, best
    least, most = crossing(above, best, best - FURTHEST), crossing(above, best, best + FURTHEST)
    if least is None or most is None:
        raise ArithmeticError(f"no edge within {FURTHEST:g} of theta at shape {shape:g}")
    return least, most


def _highest(values: Floats) -> float:
    """The highest point of a smooth row of values, between them where it lies there."""
    best = int(values.argmax())
    if best in {0, values.size - 1}:
        return float(values[best])
    before, at, after = (float(each) for each in values[best - 1 : best + 2])
    bend = before - 2.0 * at + after
    return at if bend >= 0.0 else at - (after - before) ** 2 / (8.0 * bend)


def _share(upright: float) -> float:
    """The share failed that stands so high on the upright axis."""
    return -math.expm1(-math.exp(upright))
