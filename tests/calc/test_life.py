"""Lives and hazards, held against published numbers and against what must be true of any hazard."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.life.wear import (
    Wear,
    age_of_peak_hazard,
    characteristic_life,
    life_factor,
    stopping_share,
    wear_rate,
)
from tests.calc.small import COMPONENT
from tests.cast import shipped

WELL_KNOWN = 1e12
"""Evidence so strong that the gamma prior is a point: the plain Weibull law."""


def plain(age: float, eta: float, shape: float) -> Wear:
    """A Weibull life known for certain, every failure stopping the engine."""
    return Wear(age=age, rate=1.0, eta=eta, shape=shape, evidence=WELL_KNOWN, stopping=1.0, life=eta)


def test_the_chance_to_go_on_given_age_is_nelsons() -> None:
    """Nelson, Applied Life Data Analysis (1982), pp. 69-70: transformer windings, shape 2, scale 13 years.

    The question, to reach 13 given 6.5, stands on the page; the number is arithmetic, exp(-(1 - 0.25)).
    """
    assert math.exp(-plain(6.5, 13.0, 2.0).any_hazard(6.5)) == pytest.approx(0.47236655, abs=1e-6)


def test_the_share_failed_is_the_handbooks() -> None:
    """NIST/SEMATECH e-Handbook 8.1.6.2: F(1000) for shape 1.5, scale 5000; the value is from memory."""
    failed = 1.0 - math.exp(-plain(0.0, 5000.0, 1.5).any_hazard(1000.0))
    assert failed == pytest.approx(0.0856, abs=5e-5)


def test_lives_at_other_shares_are_those_of_the_bearing_standard() -> None:
    """ISO 281:1990, table of a1: life at 95 to 99 % against the 90 % life, Weibull slope 1.5."""
    eta = characteristic_life(1.0, 0.10, 1.5)
    for reliability, a1 in ((0.95, 0.62), (0.96, 0.53), (0.97, 0.44), (0.98, 0.33), (0.99, 0.21)):
        assert eta * (-math.log(reliability)) ** (1 / 1.5) == pytest.approx(a1, abs=0.006)


def test_the_named_share_has_failed_by_the_reference_life() -> None:
    eta = characteristic_life(6000.0, 0.10, 2.5)
    assert 1.0 - math.exp(-plain(0.0, eta, 2.5).any_hazard(6000.0)) == pytest.approx(0.10, abs=1e-6)


wears = st.builds(
    Wear,
    age=st.floats(0, 20_000),
    rate=st.floats(0.05, 5),
    eta=st.floats(500, 60_000),
    shape=st.floats(1.0, 4.0),
    evidence=st.floats(0.5, 20),
    stopping=st.just(1.0),
    life=st.just(5000.0),
)


@given(wears, st.floats(1, 5000), st.floats(0.01, 0.99))
def test_a_hazard_adds_up_when_a_service_is_split(wear: Wear, use: float, part: float) -> None:
    whole = wear.any_hazard(use)
    later = replace(wear, age=wear.age + wear.rate * use * part)
    split = wear.any_hazard(use * part) + later.any_hazard(use * (1 - part))
    assert split == pytest.approx(whole, rel=1e-9, abs=1e-12)


@given(wears, st.floats(1, 500), st.floats(0.0, 0.9), st.floats(0.01, 0.1))
def test_a_hazard_rises_with_age_up_to_its_stated_peak(
    wear: Wear, use: float, share: float, more: float
) -> None:
    peak = age_of_peak_hazard(wear.eta, wear.shape, wear.evidence)
    if not math.isfinite(peak) or peak <= 0:
        return
    small = min(use, 0.001 * peak / wear.rate)
    young, old = replace(wear, age=share * peak), replace(wear, age=(share + more) * peak)
    assert old.any_hazard(small) >= young.any_hazard(small) * (1 - 1e-9) - 1e-15


@given(wears, st.floats(1, 5000))
def test_fewer_failures_stop_the_engine_than_there_are(wear: Wear, use: float) -> None:
    assert replace(wear, stopping=0.3).stopping_hazard(use) <= wear.any_hazard(use) + 1e-15


def test_the_factor_of_the_standard_tune_is_one_for_every_component() -> None:
    catalogue = shipped("four600")
    standard, reference = catalogue.tiers["refresh"], catalogue.duties["sprint"]
    rates = [wear_rate(component, reference, standard) for component in catalogue.components.values()]
    assert rates == pytest.approx([1.0] * len(rates))


def test_a_stronger_part_loses_less_life_and_never_gains_any() -> None:
    full = shipped("four600").tiers["full"]
    assert life_factor("inertia", full, 1.0) == 0.25
    assert 0.25 < life_factor("inertia", full, 1.05) < life_factor("inertia", full, 1.15) <= 1.0
    assert life_factor("inertia", shipped("four600").tiers["refresh"], 1.15) == 1.0


def test_seldom_looked_at_means_more_failures_stop_it() -> None:
    clutch = replace(COMPONENT, stopping_share=0.1)
    assert stopping_share(clutch, "each_meeting") == 0.1
    assert stopping_share(clutch, "each_season") == pytest.approx(0.55)
    assert stopping_share(clutch, "never") == 1.0
