"""The characteristic life for a known shape, with failures and without."""

from __future__ import annotations

import math

import pytest

from quotes.calc.life.life_data import LifeData
from quotes.calc.life.one_parameter import fit_eta

FOUR = (100.0, 200.0, 300.0, 400.0)


def test_one_failure_among_four() -> None:
    """Definition of Abernethy, New Weibull Handbook, chapter 6: (sum t^beta / r)^(1/beta); arithmetic."""
    one = fit_eta(LifeData(failures=FOUR[:1], suspensions=FOUR[1:]), 2.0, 0.9)
    assert one.eta == pytest.approx(547.722558, abs=1e-5)


def test_no_failure_is_bounded_as_if_the_next_one_failed() -> None:
    """Abernethy, chapter 6: at 63.2 % the bound is (sum t^beta)^(1/beta); from memory."""
    one = fit_eta(LifeData(suspensions=FOUR), 2.0, 1 - math.exp(-1))
    assert one.eta_low == pytest.approx(547.722558, abs=1e-5)
    assert (one.eta, one.eta_high, one.log_likelihood, one.rule) == (None, None, None, "no failure")


@pytest.mark.parametrize(
    ("reliability", "confidence", "items"),
    [(0.999, 0.95, 2995), (0.90, 0.90, 22), (0.95, 0.95, 59)],
)
def test_how_many_must_run_without_failure(reliability: float, confidence: float, items: int) -> None:
    """Success-run theorem, n = ln(1 - C) / ln R (Nelson 1982; Abernethy, chapter 6); values from memory."""

    def shown(count: int) -> float:
        low = fit_eta(LifeData(suspensions=(100.0,) * count), 2.0, confidence).eta_low
        return math.exp(-((100.0 / low) ** 2.0))

    assert shown(items - 1) < reliability <= shown(items)


def test_bounds_after_two_failures_are_the_handbooks_factors() -> None:
    """NIST e-Handbook 8.4.5.1, two failures, 90 % two-sided: 0.3177 and 5.6281, from memory; formula read."""
    one = fit_eta(LifeData(failures=(300.0, 700.0), suspensions=(1000.0,) * 4), 1.0, 0.90)
    assert one.eta == pytest.approx(2500.0)
    assert (one.eta_low / 2500, (one.eta_high or 0) / 2500) == pytest.approx((0.3177, 5.6281), abs=5e-5)
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
