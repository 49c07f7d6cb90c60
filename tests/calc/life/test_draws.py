"""The draws, against the closed form that they sample."""

from __future__ import annotations

import math

import numpy as np
import pytest

from quotes.calc.life.draws import Fitted, band, chances, duty_factors, mean_chance, pair, quantiles
from quotes.calc.life.wear import Wear


def wear(age: float = 1000.0, stopping: float = 0.5, evidence: float = 2.0) -> Wear:
    return Wear(age=age, rate=0.9, eta=9000.0, shape=2.5, evidence=evidence, stopping=stopping, life=5000.0)


FITTED = {
    "springs": Fitted(wear(4000.0), "kept"),
    "rods": Fitted(wear(0.0, 0.6), "new"),
    "clutch": Fitted(wear(2500.0, 0.1), "kept"),
}


def closed_form(fitted: dict[str, Fitted], use: float, fault_hazard: float = 0.0) -> float:
    """Mean over the duty factor of the product of (1 + s D / b)^-a0: the gamma integrated by hand."""
    means = []
    for factor in duty_factors():
        chance = math.exp(-fault_hazard)
        for part in fitted.values():
            w = part.wear
            damage = (w.age + w.rate * use * factor) ** w.shape - w.age**w.shape
            chance *= (1.0 + w.stopping * damage / w.prior_scale) ** -w.evidence
        means.append(chance)
    return sum(means) / len(means)


@pytest.mark.parametrize("use", [100.0, 2000.0, 6000.0])
def test_the_mean_of_the_draws_tends_to_the_mean_that_is_shown(use: float) -> None:
    """Monte Carlo against the integral: 20,000 draws hold it to three in a thousand."""
    drawn = chances(FITTED, use, fault_hazard=0.01, shop_factor=1.3)
    assert drawn.mean() == pytest.approx(
        mean_chance(FITTED, use, fault_hazard=0.01, shop_factor=1.3), abs=0.003
    )


@pytest.mark.parametrize("use", [100.0, 2000.0, 6000.0])
def test_the_mean_is_the_gamma_integrated_by_hand(use: float) -> None:
    assert mean_chance(FITTED, use, fault_hazard=0.01) == pytest.approx(closed_form(FITTED, use, 0.01))


def test_the_same_engine_gives_the_same_bytes() -> None:
    assert chances(FITTED, 2000.0).tobytes() == chances(dict(FITTED), 2000.0).tobytes()


def test_twenty_thousand_draws_and_eight_in_ten_within_the_band() -> None:
    drawn = chances(FITTED, 2000.0)
    low, high = band(drawn)
    assert drawn.size == 20_000
    assert np.logical_and(drawn >= low, drawn <= high).mean() == pytest.approx(0.8, abs=0.001)
    assert low < mean_chance(FITTED, 2000.0) < high


def test_more_evidence_narrows_the_band() -> None:
    little = {"springs": Fitted(wear(3000.0, evidence=2.0), "kept")}
    much = {"springs": Fitted(wear(3000.0, evidence=50.0), "kept")}
    (low, high), (lower, higher) = (band(chances(each, 2000.0)) for each in (little, much))
    assert high - low > 1.5 * (higher - lower)


def test_an_option_held_against_itself_cannot_be_told_apart() -> None:
    drawn = chances(FITTED, 2000.0)
    found = pair(drawn, drawn)
    assert (found.better_share, found.verdict, found.difference) == (0.5, "cannot be told apart", 0.0)


def test_one_part_renewed_in_common_company_is_told_apart_where_it_matters() -> None:
    renewed = {**FITTED, "springs": Fitted(wear(0.0), "new")}
    assert pair(chances(renewed, 2000.0), chances(FITTED, 2000.0)).verdict == "better"
    assert pair(chances(FITTED, 2000.0), chances(renewed, 2000.0)).verdict == "worse"


def test_a_shop_factor_of_two_squares_the_chance_of_a_sure_engine() -> None:
    sure = {"springs": Fitted(wear(evidence=1e9), "kept")}
    once, twice = chances(sure, 2000.0), chances(sure, 2000.0, shop_factor=2.0)
    assert twice == pytest.approx(once**2, abs=1e-9)


def test_the_band_is_that_of_numpy_to_the_last_digit() -> None:
    """Its own way there is shorter; ties and few numbers are among these."""
    stream = np.random.default_rng(5)
    for size in (*range(2, 90), 999, 20_000):
        for drawn in (stream.random(size), stream.gamma(0.3, size=size), stream.integers(0, 4, size) / 3):
            assert quantiles(drawn, 0.10, 0.90) == tuple(np.quantile(drawn, (0.10, 0.90)))
            assert quantiles(drawn, 0.0, 1.0) == (drawn.min(), drawn.max())
