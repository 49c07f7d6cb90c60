"""The likelihood of a two-parameter Weibull life, of exact, suspended, interval and left-truncated ages.

An item that came under observation at `e` and was last known sound at `x` adds -theta (x^beta - e^beta), with
`theta = eta^-beta`; a failure at `x` adds the logarithm of its hazard there; one found failed at `h` adds the
logarithm of 1 - exp(-theta (h^beta - x^beta)). For a given shape that is concave in the logarithm of theta.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from quotes.calc.life.life_data import LifeData

Floats = NDArray[np.float64]
SLACK = 1e-6
"""Widens a bracket that is exact but for rounding."""
HOLDS = (-690.0, 6.5)
"""Logarithms of y within which y / (e^y - 1) is in a double's reach; beyond them it is 1, or nothing."""

TINY = -40.0
"""Below it the logarithm of 1 - exp(-y) is that of y, to all digits."""


@dataclass(frozen=True, slots=True, eq=False)
class Ages:
    """Life data as logarithms of age over the greatest age, so that no power of an age overflows."""

    scale: float
    """The greatest age."""
    failed: Floats
    """Exact failures."""
    left: Floats
    """Where each item was last known sound, of those that ran at all under observation."""
    left_gap: Floats
    """Logarithm of entry over `left`; minus infinity where it was watched from new."""
    found: Floats
    """Where each interval ends."""
    found_gap: Floats
    """Logarithm of an interval's start over its end."""

    @property
    def failures(self) -> int:
        return self.failed.size + self.found.size


def ages_of(data: LifeData) -> Ages:
    """The data made ready for the sums."""
    ran = [(left, entry) for entry, left in data.stretches]
    scale = max((*data.last_good, *(high for _, high in data.intervals)))
    return Ages(
        scale=scale,
        failed=np.log(np.array(data.failures) / scale),
        left=np.log(np.array([left for left, _ in ran]) / scale),
        left_gap=_gap(ran),
        found=np.log(np.array([high for _, high in data.intervals]) / scale),
        found_gap=_gap([(high, low) for low, high in data.intervals]),
    )


def _gap(pairs: list[tuple[float, float]]) -> Floats:
    """Logarithm of second over first of each pair, sharp where they are close and where they are not."""
    above, below = np.array(pairs).reshape(-1, 2).T
    with np.errstate(divide="ignore"):
        near, far = np.log1p((below - above) / above), np.log(below / above)
    return np.asarray(np.where(2 * below > above, near, far))


def log_run(ages: Ages, beta: float) -> float:
    """Logarithm of the sum of `exit^beta - entry^beta`, of scaled ages."""
    return _log_sum(ages.left, ages.left_gap, beta)


def _log_sum(upper: Floats, gap: Floats, beta: float) -> float:
    if not upper.size:
        return -math.inf
    parts = beta * upper + np.log(-np.expm1(beta * gap))
    greatest = parts.max()
    return float(greatest + np.log(np.exp(parts - greatest).sum()))


def best_log_theta(ages: Ages, beta: float) -> float:
    """The logarithm of theta, of scaled ages, that is likeliest for a shape; intervals need a root.

    With y = theta (h^beta - x^beta) of an interval, y / (e^y - 1) lies between 1 - y/2 and 1: both ends of
    the bracket follow.
    """
    run = log_run(ages, beta)
    highest = math.log(ages.failures) - run
    if not ages.found.size:
        return highest
    from scipy.optimize import brentq  # slow to import: only where it is used

    steps = beta * ages.found + np.log(-np.expm1(beta * ages.found_gap))
    half = _log_sum(ages.found, ages.found_gap, beta) - math.log(2.0)
    lowest = math.log(ages.failures) - float(np.logaddexp(run, half))

    def slope(log_theta: float) -> float:
        y = np.exp(np.clip(log_theta + steps, *HOLDS))
        return float(ages.failed.size - math.exp(log_theta + run) + (y / np.expm1(y)).sum())

    return float(brentq(slope, lowest - SLACK, highest + SLACK, xtol=1e-13))


def log_likelihoods(ages: Ages, beta: Floats, log_theta: Floats) -> Floats:
    """The log-likelihood at each pair of shape and theta; ages in the unit they were given in."""
    shape, theta = beta[:, None], log_theta[:, None]
    with np.errstate(over="ignore", divide="ignore"):
        run = (np.exp(theta + shape * ages.left) * -np.expm1(shape * ages.left_gap)).sum(axis=1)
        step = theta + shape * ages.found + np.log(-np.expm1(shape * ages.found_gap))
        found = np.where(step < TINY, step, np.log(-np.expm1(-np.exp(np.maximum(step, TINY))))).sum(axis=1)
    hazard = ages.failed.size * (np.log(beta) + log_theta - math.log(ages.scale))
    failed = hazard + (beta - 1.0) * ages.failed.sum()
    return np.asarray(failed + found - run)


def log_likelihood(ages: Ages, beta: float, log_theta: float) -> float:
    """The log-likelihood at one pair."""
    return float(log_likelihoods(ages, np.array([beta]), np.array([log_theta]))[0])


def profile(ages: Ages, beta: float) -> float:
    """The log-likelihood of a shape with the characteristic life that suits it best."""
    return log_likelihood(ages, beta, best_log_theta(ages, beta))
