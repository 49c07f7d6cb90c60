"""Loads of a tune against standard, what they leave of a life, and where no number is given."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.engine import LOAD_CAUSES, LoadCause, Tier
from quotes.calc.life.wear import life_factor
from quotes.calc.tune.given import BadGeometry
from quotes.calc.tune.loads import (
    LEAST_LOAD,
    MOST_LOAD,
    OutsideKnownLoads,
    factor_from_load,
    loads_of,
    tuned,
    tuned_by,
)
from tests.calc.small import ENGINE_TYPE, TIER
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
known = st.floats(LEAST_LOAD, MOST_LOAD)
exponents = st.floats(1.0, 20.0)
strengths = st.floats(1.0, 1.3)


def tuned_tier(compression: float = 0.0, revs_pct: float = 0.0) -> Tier:
    return replace(TIER, compression_delta=compression, rev_limit_delta_pct=revs_pct)


@pytest.mark.parametrize(
    ("code", "speed"), [("single450", 23.8), ("twin650", 22.0), ("four600", 22.7), ("four1000", 26.6)]
)
def test_each_shipped_engine_has_the_piston_speed_that_its_geometry_gives(code: str, speed: float) -> None:
    assert tuned(shipped(code).engine_type).piston_speed_m_per_s == pytest.approx(speed, abs=0.05)


@pytest.mark.parametrize("code", TYPES)
def test_the_volume_of_each_shipped_engine_is_that_of_its_bore_and_stroke(code: str) -> None:
    engine = shipped(code).engine_type
    assert tuned(engine).swept_m3 * 1e6 == pytest.approx(engine.displacement_cc, abs=0.6)


def test_full_power_loads_the_four_as_its_revs_and_compression_say() -> None:
    """7 % more revs: 1.07 squared. From 13 to 14.5: 14.5 over 13 to the 1.3."""
    loads = loads_of(shipped("four600").engine_type, shipped("four600").tiers["full"])
    assert loads.inertia == pytest.approx(1.1449)
    assert loads.gas == pytest.approx(1.1525, abs=1e-4)
    changed = tuned_by(shipped("four600").engine_type, shipped("four600").tiers["full"])
    assert changed.compression_ratio == 14.5
    assert changed.rev_limit_rpm == pytest.approx(17120)


@given(exponents, strengths)
def test_the_same_tune_leaves_the_whole_life(exponent: float, strength: float) -> None:
    loads = loads_of(ENGINE_TYPE, TIER)
    assert (loads.inertia, loads.gas) == (1.0, 1.0)
    assert factor_from_load(1.0, exponent, strength) == 1.0


@given(st.floats(-10, 13), st.floats(0, 13), exponents, strengths)
def test_more_revs_never_lengthen_a_life(pct: float, more: float, exponent: float, strength: float) -> None:
    slower, faster = (
        loads_of(ENGINE_TYPE, tuned_tier(revs_pct=each)).inertia for each in (pct, min(13, pct + more))
    )
    left = [factor_from_load(load, exponent, strength) for load in (slower, faster)]
    assert left[1] <= left[0] <= 1.0


@given(known, exponents, strengths)
def test_a_stronger_part_keeps_more_of_its_life_and_never_more_than_all(
    load: float, exponent: float, strength: float
) -> None:
    assert factor_from_load(load, exponent) <= factor_from_load(load, exponent, strength) <= 1.0


@given(st.one_of(st.floats(0.01, LEAST_LOAD, exclude_max=True), st.floats(MOST_LOAD, 9, exclude_min=True)))
def test_no_life_is_worked_out_outside_of_what_is_known(load: float) -> None:
    with pytest.raises(OutsideKnownLoads, match=r"what is known \(0\.75 to 1\.30\)"):
        factor_from_load(load, 10)


def test_both_ends_of_what_is_known_still_count() -> None:
    assert factor_from_load(0.75, 3) == 1.0
    assert factor_from_load(1.3, 3) == pytest.approx(0.455, abs=0.001)


@pytest.mark.parametrize("change", [{"compression": -11.0}, {"revs_pct": -100.0}])
def test_a_tier_that_no_engine_can_have_is_refused(change: dict[str, float]) -> None:
    with pytest.raises(BadGeometry):
        loads_of(ENGINE_TYPE, tuned_tier(**change))


@pytest.mark.parametrize("cause", LOAD_CAUSES)
def test_the_sums_count_a_part_s_strength_by_the_same_law(cause: LoadCause) -> None:
    """A trade's factor that were geometry's own would come to geometry's factor for the stronger part."""
    catalogue = shipped("four600")
    law, load = catalogue.load_laws[cause], 1.1
    stock = factor_from_load(load, law.exponent)
    tier = replace(TIER, life_factors={cause: stock})
    for strength in (1.0, 1.05, 1.15):
        counted = life_factor(cause, tier, strength, catalogue.load_laws)
        assert counted == pytest.approx(factor_from_load(load, law.exponent, strength))
