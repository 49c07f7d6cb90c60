"""Our fits beside those of two libraries on random life data: `make reference` for hundreds of cases.

The libraries stand in the development lock alone and are slow to import: only where they are used.
"""

from __future__ import annotations

import sys
import warnings
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from quotes.calc.life.fit import Fit, fit
from quotes.calc.life.life_data import LifeData
from tests.outside.fits import curvature_bounds_of_shape

CASES = 300
"""How many of each kind the command runs; the tests run a few."""


@dataclass(frozen=True)
class Beside:
    """How far the library's answer lies from ours: relative, but for the log-likelihood."""

    beta: float
    eta: float
    log_likelihood: float
    """Ours less the library's: above 0 where ours is the likelier."""


def late_comers(count: int) -> Iterator[LifeData]:
    """Items failed, sound and, in every third case, found failed at a look; half were watched late."""
    for seed in range(count):
        random = np.random.default_rng([1, seed])
        shape, life, items = random.uniform(0.8, 4.0), random.uniform(50, 5_000), random.integers(12, 40)
        entries = life * random.uniform(0.05, 0.6, items) * (random.random(items) < 0.5)
        failed_at = life * ((entries / life) ** shape + random.exponential(size=items)) ** (1 / shape)
        left_at = entries + life * random.uniform(0.2, 2.0, items)
        looked_at = (random.random(items) < 0.3) & (seed % 3 == 0)
        yield _sorted_out(entries, failed_at, left_at, looked_at, every=life / 3)


def new_comers(count: int) -> Iterator[LifeData]:
    """Items failed and sound, all watched from new."""
    for seed in range(count):
        random = np.random.default_rng([2, seed])
        shape, life, items = random.uniform(0.8, 4.0), random.uniform(50, 5_000), random.integers(12, 40)
        failed_at, left_at = life * random.weibull(shape, items), life * random.uniform(0.2, 2.0, items)
        nothing = np.zeros(items)
        yield _sorted_out(nothing, failed_at, left_at, nothing.astype(bool), every=life)


def _sorted_out(
    entries: np.ndarray, failed_at: np.ndarray, left_at: np.ndarray, looked_at: np.ndarray, every: float
) -> LifeData:
    """The items in the order of LifeData: failures, suspensions, intervals."""
    failures, suspensions, intervals = [], [], []
    for entry, failed, left, looked in zip(entries, failed_at, left_at, looked_at, strict=True):
        if failed > left:
            suspensions.append((float(left), float(entry)))
        elif looked:
            last_good = max(float(entry), float(failed // every * every))
            intervals.append(((last_good, float((failed // every + 1) * every)), float(entry)))
        else:
            failures.append((float(failed), float(entry)))
    groups = (failures, suspensions, intervals)
    return LifeData(
        failures=tuple(age for age, _ in failures),
        suspensions=tuple(age for age, _ in suspensions),
        intervals=tuple(pair for pair, _ in intervals),
        entries=tuple(entry for group in groups for _, entry in group),
    )


def beside_lifelines(data: LifeData) -> Beside:
    """WeibullFitter, with left truncation; an exact age is an interval of no length."""
    from lifelines.fitters.weibull_fitter import WeibullFitter

    ages, entries = np.array(data.last_good), np.array(data.entered)
    seen = np.ones(ages.size, dtype=bool)
    seen[len(data.failures) : len(data.failures) + len(data.suspensions)] = False
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fitter = WeibullFitter()
        if data.intervals:
            upper = np.where(seen, ages, np.inf)
            upper[ages.size - len(data.intervals) :] = [high for _, high in data.intervals]
            fitter.fit_interval_censoring(ages, upper, entry=entries)
        else:
            fitter.fit(ages, seen, entry=entries)
    return _beside(fit(data), fitter.rho_, fitter.lambda_, fitter.log_likelihood_)


def beside_reliability(data: LifeData) -> tuple[Beside, float]:
    """Fit_Weibull_2P, and how far its bounds of the shape lie from our curvature's at most, relative."""
    from reliability.Fitters import Fit_Weibull_2P

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        found = Fit_Weibull_2P(
            failures=list(data.failures),
            right_censored=list(data.suspensions) or None,
            show_probability_plot=False,
            print_results=False,
        )
    low, high = curvature_bounds_of_shape(data)
    apart = max(abs(found.beta_lower / low - 1), abs(found.beta_upper / high - 1))
    return _beside(fit(data), found.beta, found.alpha, found.loglik), float(apart)


def _beside(ours: Fit, beta: float, eta: float, log_likelihood: float) -> Beside:
    return Beside(
        float(beta / ours.beta - 1), float(eta / ours.eta - 1), float(ours.log_likelihood - log_likelihood)
    )


def main() -> int:
    """Prints how far the libraries lie from us at most, and how much likelier the better answer is."""
    for name, found in (
        ("lifelines", [beside_lifelines(data) for data in late_comers(CASES)]),
        ("reliability", [beside_reliability(data)[0] for data in new_comers(CASES)]),
    ):
        print(
            f"{name}: {len(found)} cases; apart at most: shape {max(abs(b.beta) for b in found):.1e}, "
            f"life {max(abs(b.eta) for b in found):.1e}; log-likelihood ours less theirs from "
            f"{min(b.log_likelihood for b in found):.1e} to {max(b.log_likelihood for b in found):.1e}"
        )
    bounds = max(beside_reliability(data)[1] for data in new_comers(CASES))
    print(f"reliability: bounds of the shape by curvature apart at most {bounds:.1e}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
