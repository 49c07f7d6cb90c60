"""Likelihood-ratio bounds on shape and characteristic life.

All values belong whose profile log-likelihood is within half a chi-square quantile (one degree of freedom)
of the highest (Lawless 1982; Meeker and Escobar 1998, chapter 8). A bound is None where the profile never
falls so far: left truncation, or items found failed at the first look, can leave every lesser shape, or every
longer life, nearly as likely as the likeliest.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from quotes.calc.life.fit import Fit, highest_shape, shape_ladder
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.likelihood import Ages, ages_of, log_likelihood, log_likelihoods, profile

LEAST_SHAPE, MOST_SHAPE = 1e-4, 1e12
SHAPES_ABOVE = 1e3
"""How far above the likeliest shape one is looked for that suits a given life."""
LONGEST = 690.0
"""Logarithm of the longest life that is looked at; a double holds little more."""
FIRST_STEP = 0.1


@dataclass(frozen=True, slots=True)
class Bounds:
    """Two-sided bounds at `confidence`, each parameter on its own; None where there is none."""

    confidence: float
    beta_low: float | None
    beta_high: float | None
    eta_low: float | None
    eta_high: float | None


def likelihood_bounds(data: LifeData, fitted: Fit, confidence: float) -> Bounds:
    """The bounds around a fit of the same data."""
    ages = ages_of(data)
    floor = fitted.log_likelihood - drop(confidence)
    scale = math.log(ages.scale)

    def above_by_shape(log_shape: float) -> float:
        return profile(ages, math.exp(log_shape)) - floor

    def above_by_life(log_eta: float) -> float:
        return profile_of_life(ages, log_eta - scale, fitted.beta) - floor

    shape, life = math.log(fitted.beta), math.log(fitted.eta)
    return Bounds(
        confidence,
        _power(crossing(above_by_shape, shape, math.log(LEAST_SHAPE))),
        _power(crossing(above_by_shape, shape, math.log(MOST_SHAPE))),
        _power(crossing(above_by_life, life, -LONGEST)),
        _power(crossing(above_by_life, life, LONGEST)),
    )


def _power(logarithm: float | None) -> float | None:
    return None if logarithm is None else math.exp(logarithm)


def drop(confidence: float) -> float:
    """How far under the highest log-likelihood a two-sided bound lies: half a chi-square quantile."""
    from scipy.special import gammaincinv

    return float(gammaincinv(0.5, confidence))


def profile_of_life(ages: Ages, log_eta: float, near: float) -> float:
    """The log-likelihood of a characteristic life (scaled) with the shape that suits it best."""
    shapes = shape_ladder(LEAST_SHAPE, near * SHAPES_ABOVE)
    best = int(np.argmax(log_likelihoods(ages, shapes, -shapes * log_eta)))
    shape = highest_shape(lambda beta: log_likelihood(ages, beta, -beta * log_eta), shapes, best)
    return log_likelihood(ages, shape, -shape * log_eta)


def crossing(above: Callable[[float], float], start: float, limit: float) -> float | None:
    """Where `above` falls through nought between `start` and `limit`, all logarithms; None if nowhere."""
    from scipy.optimize import brentq

    step = math.copysign(FIRST_STEP, limit - start)
    inside, outside = start, start + step
    while above(outside) > 0.0:
        if outside == limit:
            return None
        step *= 2.0
        inside, outside = outside, (min if step > 0 else max)(outside + step, limit)
    return float(brentq(above, inside, outside, xtol=1e-11))
