"""Two-parameter Weibull fit of life data by maximum likelihood.

The same rule as in Lawless (1982) and Meeker and Escobar (1998): the shape whose profile likelihood is
highest, with the characteristic life that suits it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.life.life_data import LifeData, refuse_faults, some
from quotes.calc.life.likelihood import Ages, Floats, ages_of, best_log_theta, profile

LEAST_SHAPE, MOST_SHAPE, MOST_SHAPE_AT_ALL = 0.01, 1e3, 1e9
STEPS_PER_DECADE = 10
XATOL = 1e-10


@dataclass(frozen=True, slots=True)
class Fit:
    """Shape, characteristic life in the unit of the ages, and the log-likelihood at them."""

    beta: float
    eta: float
    log_likelihood: float


def fit(data: LifeData) -> Fit:
    """The likeliest shape and characteristic life. Raises BadRequest where there is no such pair."""
    refuse_faults(data)
    refuse_without_fit(data)
    ages = ages_of(data)
    beta = _likeliest_shape(ages, data)
    return Fit(beta, eta_of(ages, beta, best_log_theta(ages, beta)), profile(ages, beta))


def eta_of(ages: Ages, beta: float, log_theta: float) -> float:
    """The characteristic life, in the unit of the ages, from the theta of scaled ages."""
    return math.exp(math.log(ages.scale) - log_theta / beta)


def refuse_without_fit(data: LifeData) -> None:
    """Raises BadRequest where shape and characteristic life can't both be found.

    The shape grows without end where all that failed may have failed at one age, or as soon as they were
    watched past it, and no item was watched sound past it.
    """
    if not data.failed:
        allowed = say("at least one failure or interval is needed; or give beta")
        raise BadRequest((Fault("failures", say("none"), allowed),))
    refuse_without_run(data)
    passed = max(left for _, left in data.stretches)
    first = min((*data.failures, *(high for _, high in data.intervals)))
    if passed <= first:
        field = "failures" if data.failures else "intervals"
        allowed = say(
            "all may have failed at the same age: an item sound past {age} is needed; or give beta",
            age=f"{first:g}",
        )
        raise BadRequest((Fault(field, _what_failed(data), allowed),))


def refuse_without_run(data: LifeData) -> None:
    """Raises BadRequest where nothing was seen to run."""
    if not data.stretches:
        allowed = say("nothing was seen sound while under observation: at least one such age is needed")
        raise BadRequest((Fault("intervals" if data.failed else "suspensions", _what_failed(data), allowed),))


def _what_failed(data: LifeData) -> str:
    found = ", ".join(f"[{low:g}, {high:g}]" for low, high in data.intervals[:3])
    return some(data.failures) if data.failures else found or say("none")


def _likeliest_shape(ages: Ages, data: LifeData) -> float:
    for most in (MOST_SHAPE, MOST_SHAPE_AT_ALL):
        shapes = shape_ladder(LEAST_SHAPE, most)
        values = np.array([profile(ages, float(shape)) for shape in shapes])
        best = int(values.argmax())
        if best == 0:
            allowed = say(
                "the likeliest shape is below {shape}, no Weibull wear; or give beta",
                shape=f"{LEAST_SHAPE:g}",
            )
            raise BadRequest((Fault("data", say("{count} failed", count=data.failed), allowed),))
        if best < shapes.size - 1:
            return highest_shape(lambda shape: profile(ages, shape), shapes, best)
    allowed = say("all have failed at the same age but for rounding; or give beta")
    raise BadRequest((Fault("failures", _what_failed(data), allowed),))


def shape_ladder(least: float, most: float) -> Floats:
    """Shapes from least to most, evenly spaced in their logarithm."""
    steps = round(math.log10(most / least) * STEPS_PER_DECADE)
    return np.geomspace(least, most, steps + 1)


def highest_shape(value: Callable[[float], float], shapes: Floats, best: int) -> float:
    """The shape at which `value` is highest, looked for between the neighbours of the best of a ladder."""
    from scipy.optimize import minimize_scalar  # slow to import: only where it is used

    low, high = shapes[max(best - 1, 0)], shapes[min(best + 1, shapes.size - 1)]
    found = minimize_scalar(
        lambda log_shape: -value(math.exp(log_shape)),
        bounds=(math.log(low), math.log(high)),
        method="bounded",
        options={"xatol": XATOL},
    )
    return math.exp(float(found.x))
