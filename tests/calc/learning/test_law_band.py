"""The band around a fitted law is what the likelihood allows at each age."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import chi2

from quotes.calc.learning.law_band import LawBand, ages_between, law_band
from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData

BEARINGS = LifeData(
    failures=(
        *(17.88, 28.92, 33.0, 41.52, 42.12, 45.6, 48.4, 51.84, 51.96, 54.12, 55.56, 67.8),
        *(68.64, 68.64, 68.88, 84.12, 93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.4),
    )
)
"""Lieblein and Zelen 1956, million revolutions."""
MIXED = LifeData(
    failures=(310.0, 455.0, 520.0, 640.0),
    suspensions=(200.0, 480.0, 700.0, 900.0),
    intervals=((0.0, 400.0), (300.0, 610.0)),
    entries=(0, 100, 0, 250, 0, 0, 300, 0, 0, 50),
)
AGES = (20.0, 55.0, 90.0, 160.0)


def band_of(data: LifeData, ages: tuple[float, ...], confidence: float = 0.9) -> LawBand:
    fitted = fit(data)
    found = law_band(data, fitted, likelihood_bounds(data, fitted, confidence), ages)
    assert found is not None
    return found


def log_likelihood(data: LifeData, beta: float, eta: float) -> float:
    """From the definition, item by item."""
    whole = 0.0
    for entry, age in zip(data.entered, data.last_good, strict=True):
        whole -= (age / eta) ** beta - (entry / eta) ** beta
    whole += sum(math.log(beta / eta) + (beta - 1) * math.log(age / eta) for age in data.failures)
    gone = (math.exp((low / eta) ** beta - (high / eta) ** beta) for low, high in data.intervals)
    return whole + sum(math.log1p(-each) for each in gone)


def by_profile(data: LifeData, age: float, confidence: float) -> tuple[float, float]:
    """At each share the shape that suits it best; the shares where that falls under the floor."""
    fitted = fit(data)
    floor = fitted.log_likelihood - chi2.ppf(confidence, 1) / 2

    def above(upright: float) -> float:
        def less(log_beta: float) -> float:
            beta = math.exp(log_beta)
            return -log_likelihood(data, beta, age / math.exp(upright / beta))

        grid = np.linspace(math.log(0.05), math.log(20), 120)
        best = grid[int(np.argmin([less(each) for each in grid]))]
        found = minimize_scalar(
            less, bounds=(best - 0.1, best + 0.1), method="bounded", options={"xatol": 1e-9}
        )
        return float(-found.fun - floor)

    at = fitted.beta * math.log(age / fitted.eta)
    ends = (brentq(above, at + way * 6, at, xtol=1e-8) for way in (-1, 1))
    low, high = (-math.expm1(-math.exp(end)) for end in ends)
    return low, high


@pytest.mark.parametrize(
    ("data", "ages"), [(BEARINGS, (20.0, 90.0)), (MIXED, (150.0, 500.0))], ids=["bearings", "mixed"]
)
def test_it_is_the_profile_of_the_share_at_each_age(data: LifeData, ages: tuple[float, ...]) -> None:
    band = band_of(data, ages)
    for age, low, high in zip(ages, band.low, band.high, strict=True):
        assert (low, high) == pytest.approx(by_profile(data, age, 0.9), rel=2e-4)


def test_the_law_lies_within_its_band_and_both_bounds_rise_with_age() -> None:
    fitted, band = fit(BEARINGS), band_of(BEARINGS, ages_between(10.0, 300.0))
    law = [-math.expm1(-((age / fitted.eta) ** fitted.beta)) for age in band.ages]
    assert all(low < share < high for low, share, high in zip(band.low, law, band.high, strict=True))
    assert list(band.low) == sorted(band.low)
    assert list(band.high) == sorted(band.high)


def test_more_confidence_and_less_data_make_it_wider() -> None:
    usual, surer = band_of(BEARINGS, AGES), band_of(BEARINGS, AGES, 0.99)
    fewer = band_of(LifeData(failures=BEARINGS.failures[::3]), AGES)
    for other in (surer, fewer):
        assert all(a < b for a, b in zip(other.low, usual.low, strict=True))
        assert all(a > b for a, b in zip(other.high, usual.high, strict=True))


def test_without_a_bound_on_the_shape_there_is_no_band() -> None:
    fitted = fit(BEARINGS)
    bounds = likelihood_bounds(BEARINGS, fitted, 0.9)
    unbounded = (replace(bounds, beta_low=None), replace(bounds, beta_high=None))
    assert [law_band(BEARINGS, fitted, each, AGES) for each in unbounded] == [None, None]
