"""Lives and hazards: what must be true of any of them."""

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
from tests.outside.laws import plain


def test_the_named_share_has_failed_by_the_reference_life() -> None:
    eta = characteristic_life(6000.0, 0.10, 2.5)
    assert 1.0 - math.exp(-plain(0.0, eta, 2.5).stopping_hazard(6000.0)) == pytest.approx(0.10, abs=1e-6)


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
    whole = wear.stopping_hazard(use)
    later = replace(wear, age=wear.age + wear.rate * use * part)
    split = wear.stopping_hazard(use * part) + later.stopping_hazard(use * (1 - part))
    assert split == pytest.approx(whole, rel=0, abs=1e-12)


@given(wears, st.floats(1, 500), st.floats(0.0, 0.9), st.floats(0.01, 0.1))
def test_a_hazard_rises_with_age_up_to_its_stated_peak(
    wear: Wear, use: float, share: float, more: float
) -> None:
    peak = age_of_peak_hazard(wear.eta, wear.shape, wear.evidence)
    if not math.isfinite(peak) or peak <= 0:
        return
    small = min(use, 0.001 * peak / wear.rate)
    young, old = replace(wear, age=share * peak), replace(wear, age=(share + more) * peak)
    assert old.stopping_hazard(small) >= young.stopping_hazard(small) * (1 - 1e-9) - 1e-15


@given(wears, st.floats(1, 5000))
def test_fewer_failures_stop_the_engine_than_there_are(wear: Wear, use: float) -> None:
    assert replace(wear, stopping=0.3).stopping_hazard(use) <= wear.stopping_hazard(use) + 1e-15


def test_the_factor_of_the_standard_tune_is_one_for_every_component() -> None:
    catalogue = shipped("four600")
    standard, reference = catalogue.tiers["refresh"], catalogue.duties["sprint"]
    laws = catalogue.load_laws
    rates = [wear_rate(each, reference, standard, 1.0, laws) for each in catalogue.components.values()]
    assert rates == pytest.approx([1.0] * len(rates))


def test_a_stronger_part_loses_less_life_and_never_gains_any() -> None:
    tiers, laws = shipped("four600").tiers, shipped("four600").load_laws
    stock, strong, strongest = (life_factor("inertia", tiers["full"], s, laws) for s in (1.0, 1.05, 1.15))
    assert stock == 0.25
    assert 0.25 < strong < strongest <= 1.0
    assert life_factor("inertia", tiers["refresh"], 1.15, laws) == 1.0


def test_seldom_looked_at_means_more_failures_stop_it() -> None:
    clutch = replace(COMPONENT, stopping_share=0.1)
    assert stopping_share(clutch, "each_meeting") == 0.1
    assert stopping_share(clutch, "each_season") == pytest.approx(0.55)
    assert stopping_share(clutch, "never") == 1.0
