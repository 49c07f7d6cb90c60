"""The characteristic life where the shape is known (Weibayes), with failures or without."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.life.bounds import crossing, drop
from quotes.calc.life.fit import eta_of, refuse_without_run
from quotes.calc.life.life_data import LifeData, refuse_faults
from quotes.calc.life.likelihood import Ages, ages_of, best_log_theta, log_likelihood, log_run

Rule = Literal["no failure", "chi-square", "likelihood ratio"]
FURTHEST = 1e4
"""How far the logarithm of theta is followed: further than any bound lies."""


@dataclass(frozen=True, slots=True)
class OneParameter:
    """The characteristic life for a given shape, with its bounds and the rule that they follow.

    Without a failure there is a bound from below and nothing else.
    """

    beta: float
    eta: float | None
    eta_low: float
    eta_high: float | None
    log_likelihood: float | None
    rule: Rule


def fit_eta(data: LifeData, beta: float, confidence: float) -> OneParameter:
    """The likeliest characteristic life for a shape. Raises BadRequest where nothing was seen to run.

    With `T = sum(exit^beta - entry^beta)` and r failures, eta = (T/r)^(1/beta) (Abernethy, New Weibull
    Handbook, chapter 6; IEC 61649:2008, clause 9; both from memory); intervals need a root.
    """
    refuse_faults(data)
    if not data.last_good:
        raise BadRequest((Fault("suspensions", say("none"), say("at least one age is needed")),))
    refuse_without_run(data)
    ages = ages_of(data)
    if not data.failed:
        return OneParameter(beta, None, _success_run(ages, beta, confidence), None, None, "no failure")
    log_theta = best_log_theta(ages, beta)
    low, high = (_by_likelihood if data.intervals else _by_chi_square)(ages, beta, confidence)
    return OneParameter(
        beta,
        eta_of(ages, beta, log_theta),
        low,
        high,
        log_likelihood(ages, beta, log_theta),
        "likelihood ratio" if data.intervals else "chi-square",
    )


def _success_run(ages: Ages, beta: float, confidence: float) -> float:
    """The one-sided bound of the success-run theorem, `(T / -ln(1 - C))^(1/beta)`.

    At C = 0.632 that is the life as if the next item failed at once (Abernethy, chapter 6).
    """
    return eta_of(ages, beta, math.log(-math.log1p(-confidence)) - log_run(ages, beta))


def _by_chi_square(ages: Ages, beta: float, confidence: float) -> tuple[float, float]:
    """Two-sided: 2 theta T against chi-square of 2r + 2 and 2r degrees (NIST e-Handbook 8.4.5.1).

    As for a test that ends at a set time, on the ages to the power of the shape; where items left at
    different ages it is the usual approximation.
    """
    from scipy.special import gammaincinv

    run, outside = log_run(ages, beta), (1.0 - confidence) / 2.0
    most = math.log(gammaincinv(ages.failures + 1, 1.0 - outside)) - run
    least = math.log(gammaincinv(ages.failures, outside)) - run
    return eta_of(ages, beta, most), eta_of(ages, beta, least)


def _by_likelihood(ages: Ages, beta: float, confidence: float) -> tuple[float, float]:
    """Two-sided by the likelihood ratio, which interval ages leave usable; both always exist."""
    best = best_log_theta(ages, beta)
    floor = log_likelihood(ages, beta, best) - drop(confidence)

    def above(log_theta: float) -> float:
        return log_likelihood(ages, beta, log_theta) - floor

    most, least = crossing(above, best, best + FURTHEST), crossing(above, best, best - FURTHEST)
    if most is None or least is None:
        raise ArithmeticError(f"no bound within {FURTHEST:g} of theta at shape {beta:g}")
    return eta_of(ages, beta, most), eta_of(ages, beta, least)
