"""How a catalogue life moves to what the shop has seen."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.ask.fault import BadRequest
from quotes.calc.life.experience import LearntLife, learn
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.one_parameter import fit_eta
from quotes.calc.life.wear import Wear

ages = st.lists(st.floats(10, 20_000), min_size=1, max_size=8).map(tuple)
lives = st.floats(500, 60_000)
shapes = st.floats(0.8, 5.0)
strengths = st.floats(0.5, 20)


def catalogue(data: LifeData) -> LearntLife:
    """A life of 1000 at shape 2, worth two failures, after the data."""
    return learn(data, eta=1000.0, beta=2.0, evidence=2.0)


@settings(max_examples=25, deadline=None)
@given(lives, shapes, strengths)
def test_without_data_it_is_the_catalogues(eta: float, beta: float, evidence: float) -> None:
    learnt = learn(LifeData(), eta=eta, beta=beta, evidence=evidence)
    assert learnt.eta == pytest.approx(eta)
    assert (learnt.beta, learnt.evidence) == (beta, evidence)
    assert (learnt.catalogue_weight, learnt.shop_weight) == (1.0, 0.0)


@settings(max_examples=25, deadline=None)
@given(ages, ages, lives, shapes)
def test_with_much_data_it_is_the_plain_estimate(
    failures: tuple[float, ...], suspensions: tuple[float, ...], eta: float, beta: float
) -> None:
    """Much data beside the catalogue's, or the catalogue's worth a millionth of the data: it is the same."""
    data = LifeData(failures=failures, suspensions=suspensions)
    little = 1e-6 * min(1.0, (failures[0] / eta) ** beta)
    learnt = learn(data, eta=eta, beta=beta, evidence=little)
    assert learnt.eta == pytest.approx(fit_eta(data, beta, 0.9).eta, rel=1e-5)


@settings(max_examples=25, deadline=None)
@given(ages, ages, lives, shapes, strengths)
def test_it_lies_between_the_catalogue_and_the_shop_as_they_are_weighed(
    failures: tuple[float, ...], suspensions: tuple[float, ...], eta: float, beta: float, evidence: float
) -> None:
    data = LifeData(failures=failures, suspensions=suspensions)
    learnt = learn(data, eta=eta, beta=beta, evidence=evidence)
    shop = fit_eta(data, beta, 0.9).eta or 0.0
    hazard = learnt.catalogue_weight * eta**-beta + learnt.shop_weight * shop**-beta
    assert learnt.eta**-beta == pytest.approx(hazard, rel=1e-9)
    assert min(eta, shop) * (1 - 1e-9) <= learnt.eta <= max(eta, shop) * (1 + 1e-9)


def test_each_failure_and_each_survivor_move_it_a_little_further() -> None:
    """In steps that can be worked by hand: theta has two failures in 2 x 1000^2 to begin with."""
    one_failed = catalogue(LifeData(failures=(1000.0,)))
    assert one_failed.eta == pytest.approx(1000.0)
    assert (one_failed.evidence, one_failed.shop_weight) == pytest.approx((3.0, 1 / 3))
    early = catalogue(LifeData(failures=(500.0,)))
    assert early.eta == pytest.approx(1000 * math.sqrt(2.25 / 3))
    sound = catalogue(LifeData(suspensions=(1000.0, 1000.0)))
    assert sound.eta == pytest.approx(1000 * math.sqrt(2))
    assert (sound.evidence, sound.shop_weight) == pytest.approx((2.0, 0.5))


def test_what_ran_before_it_was_watched_is_no_evidence() -> None:
    assert catalogue(LifeData(suspensions=(1000.0,), entries=(999.9999,))).eta == pytest.approx(1000.0)


def test_found_failed_between_two_looks_counts_half_way() -> None:
    looked_at = catalogue(LifeData(intervals=((400.0, 600.0),)))
    assert looked_at == catalogue(LifeData(failures=(500.0,)))


def test_learning_at_once_or_bit_by_bit_is_the_same() -> None:
    first = catalogue(LifeData(failures=(700.0,), suspensions=(900.0,)))
    then = learn(LifeData(failures=(300.0,)), eta=first.eta, beta=2.0, evidence=first.evidence)
    at_once = catalogue(LifeData(failures=(700.0, 300.0), suspensions=(900.0,)))
    assert (then.eta, then.evidence) == pytest.approx((at_once.eta, at_once.evidence))


def test_a_learnt_life_stands_in_a_hazard_as_it_is() -> None:
    """`a ln(1 + D / b)` with a = 2 + 1 and b = 2 x 1000^2 + 700^2 + 900^2, worked by hand."""
    learnt = catalogue(LifeData(failures=(700.0,), suspensions=(900.0,)))
    wear = Wear(0.0, 1.0, learnt.eta, learnt.beta, learnt.evidence, stopping=1.0, life=500.0)
    assert wear.stopping_hazard(500.0) == pytest.approx(3 * math.log1p(500**2 / (2e6 + 700**2 + 900**2)))


def test_more_evidence_narrows_the_band() -> None:
    few, many = catalogue(LifeData(failures=(1000.0,))), catalogue(LifeData(failures=(1000.0,) * 20))
    assert few.band(0.8)[0] < many.band(0.8)[0] < 1000.0 < many.band(0.8)[1] < few.band(0.8)[1]


@pytest.mark.parametrize("field", ["eta", "beta", "evidence"])
def test_a_catalogue_life_of_nothing_is_refused(field: str) -> None:
    given_ = {"eta": 1000.0, "beta": 2.0, "evidence": 2.0, field: 0.0}
    with pytest.raises(BadRequest, match=f"{field}: 0: must be above 0"):
        learn(LifeData(), **given_)
