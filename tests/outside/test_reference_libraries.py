"""Our fits and distributions beside those of other libraries; `make reference` runs hundreds of the fits."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from quotes.calc.life.draws import DUTY_SIGMA, SEASONS, duty_factors
from quotes.calc.life.wear import Wear
from tests.outside.laws import plain
from tests.outside.little_data import gamma
from tests.outside.reference import Beside, beside_lifelines, beside_reliability, late_comers, new_comers

FEW = 9
shapes, lives, strengths = st.floats(0.6, 5.0), st.floats(50, 50_000), st.floats(0.5, 50)
shares = st.floats(0.01, 2.5)


def agree(found: Beside) -> None:
    """Their searches stop a little short of the top: so ours is never the less likely."""
    assert (found.beta, found.eta) == pytest.approx((0.0, 0.0), abs=1e-4)
    assert -1e-9 < found.log_likelihood < 1e-5


def test_fits_of_late_comers_agree_with_lifelines() -> None:
    """Failures, survivors and intervals, half of them left truncated."""
    for data in late_comers(FEW):
        agree(beside_lifelines(data))


def test_fits_and_curvatures_agree_with_reliability() -> None:
    for data in new_comers(FEW):
        found, bounds_apart = beside_reliability(data)
        agree(found)
        assert bounds_apart < 1e-3


@settings(max_examples=30, deadline=None)
@given(shapes, lives, shares)
def test_a_life_that_is_known_is_scipys_weibull(shape: float, life: float, share: float) -> None:
    reached = math.exp(-plain(0.0, life, shape).stopping_hazard(share * life))
    assert reached == pytest.approx(stats.weibull_min.sf(share, shape), abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(shapes, lives, strengths, shares)
def test_a_new_part_of_an_uncertain_life_is_scipys_burr(
    shape: float, life: float, evidence: float, share: float
) -> None:
    """A Weibull over a gamma is a Burr of type XII, its scale the life times evidence^(1 / shape)."""
    wear = Wear(0.0, 1.0, life, shape, evidence, stopping=1.0, life=life)
    scale = life * evidence ** (1.0 / shape)
    known = stats.burr12.sf(share * life, shape, evidence, scale=scale)
    assert math.exp(-wear.stopping_hazard(share * life)) == pytest.approx(known, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(strengths, st.floats(0.02, 0.98))
def test_how_sure_a_life_is_is_scipys_gamma(evidence: float, share: float) -> None:
    """The hazard that is passed with this chance, of a gamma with mean 1."""
    passed = 1.0 / gamma(evidence, evidence).eta_at(share)
    assert passed == pytest.approx(stats.gamma.isf(share, evidence, scale=1.0 / evidence), rel=1e-9)


def test_how_hard_a_season_turns_out_is_scipys_lognormal() -> None:
    middles = [(stratum + 0.5) / SEASONS for stratum in range(SEASONS)]
    assert duty_factors() == pytest.approx(stats.lognorm.ppf(middles, DUTY_SIGMA), rel=1e-9)
