"""The characteristic life for a known shape, with failures and without."""

from __future__ import annotations

import math

import pytest

from quotes.calc.life.life_data import LifeData
from quotes.calc.life.one_parameter import fit_eta


def test_without_a_failure_there_is_a_bound_from_below_alone() -> None:
    one = fit_eta(LifeData(suspensions=(100.0, 200.0, 300.0, 400.0)), 2.0, 0.9)
    assert (one.eta, one.eta_high, one.log_likelihood, one.rule) == (None, None, None, "no failure")


def test_bounds_after_failures_go_by_chi_square() -> None:
    one = fit_eta(LifeData(failures=(300.0, 700.0), suspensions=(1000.0,) * 4), 1.0, 0.90)
    assert one.eta == pytest.approx(2500.0)
    assert one.rule == "chi-square"


def test_what_ran_before_it_was_watched_does_not_count() -> None:
    late = fit_eta(LifeData(failures=(300.0,), suspensions=(500.0,), entries=(0.0, 400.0)), 2.0, 0.9)
    assert late.eta == pytest.approx(math.sqrt(300.0**2 + 500.0**2 - 400.0**2))


def test_a_narrow_interval_is_as_good_as_a_failure() -> None:
    suspensions = (250.0, 400.0)
    narrow = fit_eta(LifeData(intervals=((299.999, 300.001),), suspensions=suspensions), 2.5, 0.9)
    sharp = fit_eta(LifeData(failures=(300.0,), suspensions=suspensions), 2.5, 0.9)
    assert narrow.eta == pytest.approx(sharp.eta, rel=1e-6)
    assert narrow.rule == "likelihood ratio"
