"""Fits of life data that others have made of the same ages."""

from __future__ import annotations

import math

from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.likelihood import ages_of, log_likelihood
from tests.outside.check import OutsideCheck
from tests.outside.life_data import (
    BALL_BEARINGS,
    BOTH,
    CARCINOMA,
    CARS,
    FANS,
    LOOKED_AT,
    NIST,
    REMISSIONS,
    TRUNCATED,
)

HANDBOOK = "NIST/SEMATECH e-Handbook 8.4.1.3, data of 8.2.2.1"
BEARINGS = "Lieblein and Zelen (1956); fit in Lawless (1982), Meeker and Escobar (1998)"
NELSON = "Nelson, Applied Life Data Analysis (1982), pp. 133 and 317"
STEP = 1e-3
"""Of the logarithms of shape and life, over which the curvature is taken."""
TWO_SIDED_95 = 1.959964
"""Standard deviations that hold 95 % of a normal distribution."""


def shape(data: LifeData) -> tuple[float]:
    return (fit(data).beta,)


def life(data: LifeData) -> tuple[float]:
    return (fit(data).eta,)


def likelihood(data: LifeData) -> tuple[float]:
    return (fit(data).log_likelihood,)


def akaike(data: LifeData) -> tuple[float]:
    return (2 * 2 - 2 * fit(data).log_likelihood,)


def shape_and_life(data: LifeData) -> tuple[float, float]:
    return fit(data).beta, fit(data).eta


def shape_life_and_likelihood(data: LifeData) -> tuple[float, float, float]:
    found = fit(data)
    return found.beta, found.eta, found.log_likelihood


def bounds_of_shape_and_life(data: LifeData, confidence: float) -> tuple[float, ...]:
    found = likelihood_bounds(data, fit(data), confidence)
    return tuple(
        math.nan if bound is None else bound
        for bound in (found.beta_low, found.beta_high, found.eta_low, found.eta_high)
    )


def curvature_bounds_of_shape(data: LifeData) -> tuple[float, float]:
    """95 % bounds from the curvature of our likelihood at its top: another rule than ours for bounds.

    Both parameters by their logarithms, the variance that of the shape with the life free.
    """
    found, ages = fit(data), ages_of(data)
    log_eta = math.log(found.eta / ages.scale)

    def at(shape_step: float, life_step: float) -> float:
        beta = found.beta * math.exp(shape_step * STEP)
        return log_likelihood(ages, beta, -beta * (log_eta + life_step * STEP))

    top = at(0, 0)
    by_shape = (2 * top - at(1, 0) - at(-1, 0)) / STEP**2
    by_life = (2 * top - at(0, 1) - at(0, -1)) / STEP**2
    crossed = (at(1, -1) + at(-1, 1) - at(1, 1) - at(-1, -1)) / (4 * STEP**2)
    deviation = math.sqrt(by_life / (by_shape * by_life - crossed**2))
    half = math.exp(TWO_SIDED_95 * deviation)
    return found.beta / half, found.beta * half


CHECKS = (
    OutsideCheck(
        "shape, ten of twenty failed", shape, (NIST,), (1.7208,), (5e-5,), HANDBOOK, "published, read"
    ),
    OutsideCheck(
        "life, ten of twenty failed", life, (NIST,), (606.528,), (5e-3,), HANDBOOK, "published, read"
    ),
    OutsideCheck(
        "log-likelihood, ten of twenty failed",
        likelihood,
        (NIST,),
        (-75.135,),
        (5e-4,),
        f"{HANDBOOK}; printed without its minus",
        "published, read",
    ),
    OutsideCheck(
        "AIC, ten of twenty failed", akaike, (NIST,), (154.27,), (5e-3,), HANDBOOK, "published, read"
    ),
    OutsideCheck(
        "shape, 23 ball bearings",
        shape,
        (BALL_BEARINGS,),
        (2.102,),
        (1e-3,),
        BEARINGS,
        "published, read",
    ),
    OutsideCheck(
        "life, 23 ball bearings",
        life,
        (BALL_BEARINGS,),
        (81.88,),
        (0.03,),
        BEARINGS,
        "published, value from memory",
    ),
    OutsideCheck(
        "shape, 12 of 70 diesel fans",
        shape,
        (FANS,),
        (1.058,),
        (1e-3,),
        NELSON,
        "published, value from memory",
    ),
    OutsideCheck(
        "life, 12 of 70 diesel fans",
        life,
        (FANS,),
        (26_300.0,),
        (30.0,),
        NELSON,
        "published, value from memory",
    ),
    OutsideCheck(
        "95 % bounds of the fans' shape from the curvature of the likelihood",
        curvature_bounds_of_shape,
        (FANS,),
        (0.6441, 1.7394),
        (2e-3, 2e-3),
        "reliability 0.9.0, Fit_Weibull_2P",
        "computed with the named library",
    ),
    OutsideCheck(
        "shape and life, 10 of 31 cars",
        shape_and_life,
        (CARS,),
        (1.15443, 134_651.1),
        (1e-4, 5.0),
        "Krivtsov and Case (1999), SAE 1999-01-3220, in reliability 0.9.0",
        "computed with the named library",
    ),
    OutsideCheck(
        "shape and life, 9 of 21 remissions",
        shape_and_life,
        (REMISSIONS,),
        (1.354, 33.77),
        (5e-4, 6e-3),
        "Freireich et al. (1963); fit in Lawless (1982)",
        "published, value from memory",
    ),
    OutsideCheck(
        "95 % likelihood-ratio bounds of shape and life, carcinoma",
        bounds_of_shape_and_life,
        (CARCINOMA, 0.95),
        (4.1344, 8.3064, 215.1963, 255.2157),
        (1e-4, 1e-4, 1e-4, 1e-4),
        "Lawless (1982), by the method of Venzon and Moolgavkar (1988)",
        "published, value from memory",
    ),
    *(
        OutsideCheck(
            f"shape, life and log-likelihood, {name}",
            shape_life_and_likelihood,
            (data,),
            expected,
            (2e-5, 5e-4, 1e-7),
            "lifelines 0.30.3, WeibullFitter",
            "computed with the named library",
        )
        for name, data, expected in (
            ("left truncated", TRUNCATED, (3.162113, 85.57326, -44.8953789)),
            ("intervals", LOOKED_AT, (2.657726, 55.60120, -39.5620088)),
            ("both", BOTH, (2.203867, 51.21547, -38.3184002)),
        )
    ),
)
