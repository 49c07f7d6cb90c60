"""The fit beside other ways to the same answer: another library, and a plain search over a grid."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.likelihood import Floats
from quotes.calc.life.one_parameter import fit_eta
from tests.outside.life_data import BOTH, TRUNCATED


@pytest.mark.parametrize("seed", [1, 2])
def test_fits_agree_with_scipys_of_random_data(seed: int) -> None:
    data = drawn(seed)
    censored: stats.CensoredData[np.float64] = stats.CensoredData(
        uncensored=data.failures, right=data.suspensions, interval=np.array(data.intervals)
    )
    shape, _, scale = stats.weibull_min.fit(censored, floc=0)
    fitted = fit(data)
    assert (fitted.beta, fitted.eta) == pytest.approx((shape, scale), rel=2e-4)


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(LifeData(failures=(20, 45, 50), suspensions=(30, 60, 60)), id="few"),
        pytest.param(TRUNCATED, id="left truncated"),
        pytest.param(BOTH, id="intervals and left truncated"),
    ],
)
def test_bounds_hold_all_of_a_grid_that_is_likely_enough(data: LifeData) -> None:
    step = 0.01
    fitted = fit(data)
    betas = fitted.beta * np.exp(np.arange(-1.6, 1.0, step))
    etas = fitted.eta * np.exp(np.arange(-0.8, 1.4, step))
    values = on_grid(data, betas, etas)
    assert values.max() == pytest.approx(fitted.log_likelihood, abs=1e-3)
    likely = values >= fitted.log_likelihood - stats.chi2.ppf(0.8, 1) / 2
    some_beta, some_eta = betas[likely.any(axis=1)], etas[likely.any(axis=0)]
    bounds = likelihood_bounds(data, fitted, 0.8)
    assert (bounds.beta_low, bounds.beta_high) == pytest.approx((some_beta[0], some_beta[-1]), rel=2 * step)
    assert (bounds.eta_low, bounds.eta_high) == pytest.approx((some_eta[0], some_eta[-1]), rel=2 * step)


def test_bounds_of_a_known_shape_hold_all_of_a_grid_that_is_likely_enough() -> None:
    step = 0.001
    found = fit_eta(BOTH, 2.0, 0.9)
    etas = 50.0 * np.exp(np.arange(-0.8, 0.8, step))
    values = on_grid(BOTH, np.array([2.0]), etas)[0]
    likely = etas[values >= values.max() - stats.chi2.ppf(0.9, 1) / 2]
    assert found.eta == pytest.approx(etas[values.argmax()], rel=2 * step)
    assert (found.eta_low, found.eta_high) == pytest.approx((likely[0], likely[-1]), rel=2 * step)


def on_grid(data: LifeData, betas: Floats, etas: Floats) -> Floats:
    """The log-likelihood written out item by item, as a textbook has it."""
    values = np.zeros((betas.size, etas.size))
    shape, scale = betas[:, None], etas[None, :]
    for age in data.failures:
        values += np.log(shape / scale) + (shape - 1) * np.log(age / scale) - (age / scale) ** shape
    for age in data.suspensions:
        values -= (age / scale) ** shape
    for low, high in data.intervals:
        within = np.exp(-((low / scale) ** shape)) - np.exp(-((high / scale) ** shape))
        values += np.log(np.maximum(within, 1e-300))
    for entry in data.entries:
        values += (entry / scale) ** shape
    return values


def drawn(seed: int) -> LifeData:
    """Twenty items of shape 2 and life 40: a third watched to the end, the others left early or looked at."""
    random = np.random.default_rng(seed)
    failures, suspensions, intervals = [], [], []
    for place, (life, part) in enumerate(zip(40 * random.weibull(2.0, 20), random.random(20), strict=True)):
        if place % 3 == 0:
            failures.append(life)
        elif place % 3 == 1:
            suspensions.append(life * part)
        else:
            low = 10.0 * math.floor(life / 10.0)
            intervals.append((low, low + 10.0))
    return LifeData(failures=tuple(failures), suspensions=tuple(suspensions), intervals=tuple(intervals))
