"""Stops seen against stops promised, and the factor that the record suggests."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from quotes.calc.life.calibration import (
    PRIOR_STOPS,
    Watched,
    by_tier_and_duty,
    record_of,
    stops_between,
    suggested,
)

SPRINT = Watched("refresh", "sprint", wear=0.20, hands=0.05, factor=1.0, stopped=False)
STOPPED = replace(SPRINT, stopped=True)
few = st.integers(0, 12)


def shop(fine: int, stopped: int) -> list[Watched]:
    return [SPRINT] * fine + [STOPPED] * stopped


@pytest.mark.parametrize(
    ("seen", "low", "high"), [(0, 0.0, 3.689), (1, 0.0253, 5.572), (5, 1.623, 11.668), (10, 4.795, 18.390)]
)
def test_the_interval_on_a_count_is_the_published_one(seen: int, low: float, high: float) -> None:
    """Garwood, Biometrika 28 (1936) 437-442, fiducial limits at 95 %; values from memory."""
    assert stops_between(seen, 0.95) == pytest.approx((low, high), abs=6e-4)


def test_promised_is_the_sum_over_what_was_run() -> None:
    record = record_of(shop(18, 2))
    assert (record.services, record.seen) == (20, 2)
    assert record.promised == pytest.approx(5.0)
    assert record.ratio == pytest.approx(0.4)


def test_a_short_record_says_how_many_services_are_wanted() -> None:
    assert record_of(shop(9, 1)).more_services == 10
    long = [replace(SPRINT, wear=0.1, hands=0.0)] * 30
    assert record_of(long).more_services == 20, "of 5 stops 3 are promised, at 10 services each"
    assert record_of([]).more_services == 20


def test_a_ratio_of_nothing_says_nothing() -> None:
    assert record_of([SPRINT]).says_nothing
    assert not record_of([STOPPED]).says_nothing
    assert not record_of([SPRINT] * 2).says_nothing


@pytest.mark.parametrize(("stopped", "verdict"), [(0, "fewer"), (5, "as promised"), (12, "more")])
def test_a_long_record_says_whether_more_stopped_than_chance_does(stopped: int, verdict: str) -> None:
    assert record_of(shop(20 - stopped, stopped)).verdict == verdict
    assert record_of(shop(0, min(stopped, 4))).verdict == "too few"


def test_records_are_kept_apart_by_tier_and_duty() -> None:
    drag = replace(STOPPED, tier="full", duty="drag")
    apart = by_tier_and_duty([SPRINT, drag, STOPPED])
    assert {key: (one.services, one.seen) for key, one in apart.items()} == {
        ("refresh", "sprint"): (2, 1),
        ("full", "drag"): (1, 1),
    }


def test_without_a_record_the_catalogue_stands() -> None:
    assert suggested([]).factor == pytest.approx(1.0)
    assert suggested([]).shop_weight == 0.0


@settings(max_examples=25)
@given(fine=few, stopped=few)
def test_where_our_hands_never_stop_one_it_is_the_plain_gamma(fine: int, stopped: int) -> None:
    """NIST e-Handbook 8.2.5, gamma prior: shape grows by the failures, rate by the exposure."""
    watched = [replace(one, hands=0.0) for one in shop(fine, stopped)]
    wear = 0.20 * len(watched)
    assert suggested(watched).factor == pytest.approx((PRIOR_STOPS + stopped) / (PRIOR_STOPS + wear))


@pytest.mark.parametrize(("fine", "stopped"), [(20, 0), (15, 5), (2, 9)])
def test_with_our_hands_it_is_what_integrating_gives(fine: int, stopped: int) -> None:
    """Oracle: the posterior written out and integrated numerically."""
    watched = shop(fine, stopped)
    wear, hands = 0.20 * len(watched), 0.05 * len(watched)

    def likely(factor: float) -> float:
        prior = factor ** (PRIOR_STOPS - 1) * math.exp(-PRIOR_STOPS * factor)
        return float(prior * (factor * wear + hands) ** stopped * math.exp(-factor * wear))

    whole = quad(likely, 0, 20)[0]
    found = suggested(watched)
    assert found.factor == pytest.approx(quad(lambda f: f * likely(f), 0, 20)[0] / whole, rel=1e-6)
    assert quad(likely, 0, found.low)[0] / whole == pytest.approx(0.1, abs=1e-6)
    assert quad(likely, 0, found.high)[0] / whole == pytest.approx(0.9, abs=1e-6)


@settings(max_examples=25)
@given(fine=few, stopped=few)
def test_a_stop_more_never_lowers_it_and_a_service_more_never_raises_it(fine: int, stopped: int) -> None:
    here = suggested(shop(fine + 1, stopped)).factor
    assert suggested(shop(fine, stopped + 1)).factor >= here
    assert suggested(shop(fine + 2, stopped)).factor <= here


def test_a_promise_made_under_another_factor_counts_as_it_would_have_at_one() -> None:
    doubled = replace(STOPPED, wear=0.40, factor=2.0)
    assert suggested([doubled] * 8) == suggested([STOPPED] * 8)


def seen_in(shops: int, factors: np.ndarray, draw: np.random.Generator) -> list[list[Watched]]:
    """Shops of 40 engines each, every one run until it stops or its service ends."""
    wear, hands = draw.uniform(0.05, 0.4, (shops, 40)), 0.02
    lasts = draw.exponential(size=(shops, 40)) / (wear * factors[:, None] + hands)
    ran = np.minimum(lasts, 1.0)
    return [
        [
            Watched("refresh", "sprint", w * r, hands * r, 1.0, bool(last < 1.0))
            for w, r, last in zip(*rows, strict=True)
        ]
        for rows in zip(wear, ran, lasts, strict=True)
    ]


def test_the_interval_holds_the_true_ratio_as_often_as_it_says() -> None:
    """Monte Carlo, seeded: shops that do as promised; an exact interval holds it more often."""
    draw = np.random.default_rng(1936)
    records = [record_of(one) for one in seen_in(600, np.ones(600), draw)]
    held = np.mean([record.low <= 1.0 <= record.high for record in records])
    assert 0.90 <= held <= 0.96
    assert np.mean([r.seen for r in records]) == pytest.approx(
        np.mean([r.promised for r in records]), rel=0.02
    )


def test_the_band_of_the_factor_holds_the_true_one_eight_times_in_ten() -> None:
    """Monte Carlo, seeded: true factors drawn from the prior, so the band must be right on average."""
    draw = np.random.default_rng(80)
    true = draw.gamma(PRIOR_STOPS, 1.0 / PRIOR_STOPS, 200)
    bands = [suggested(one) for one in seen_in(200, true, draw)]
    held = np.mean([b.low <= t <= b.high for b, t in zip(bands, true, strict=True)])
    assert held == pytest.approx(0.80, abs=0.05)
