"""Volumes, pressure, work and fuel; the textbooks' examples stand with the numbers from outside."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.tune.gas import (
    bmep_pa,
    compression_gain_at_most_pct,
    fuel_kg_per_h,
    otto_gain,
    peak_pressure_ratio,
    power_w,
    torque_nm,
)
from quotes.calc.tune.geometry import clearance_volume_m3
from quotes.calc.tune.given import BadGeometry

ratios = st.floats(5.0, 18.0)
revs = st.floats(1000.0, 20000.0)
pressures = st.floats(1e5, 3e6)
LITRE = 1e-3


@given(pressures, revs)
def test_power_is_torque_times_speed(pressure: float, rpm: float) -> None:
    watts = power_w(pressure, LITRE, rpm)
    assert watts == pytest.approx(torque_nm(pressure, LITRE) * 2 * math.pi * rpm / 60)
    assert bmep_pa(watts, LITRE, rpm) == pytest.approx(pressure)


@given(ratios)
def test_clearance_and_compression_say_the_same(ratio: float) -> None:
    clearance = clearance_volume_m3(LITRE, ratio)
    assert (LITRE + clearance) / clearance == pytest.approx(ratio)


@given(ratios, ratios)
def test_compression_alone_gives_no_more_than_its_bound(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert compression_gain_at_most_pct(low, low) == 0
    most = compression_gain_at_most_pct(high, low)
    assert most >= 0
    assert all(100 * (otto_gain(high, low, gamma) - 1) <= most + 1e-9 for gamma in (1.27, 1.285, 1.30))


def test_a_point_of_compression_gives_about_two_per_cent_at_most() -> None:
    """The trade says about 2 % a point at these ratios (porting shop's calculator)."""
    assert compression_gain_at_most_pct(14.0, 13.0) == pytest.approx(2.0, abs=0.2)


def test_pressure_goes_with_compression_to_the_power_of_1_3() -> None:
    assert peak_pressure_ratio(14.5, 13.0) == pytest.approx(1.1525, abs=1e-4)
    assert peak_pressure_ratio(13.0, 13.0) == 1


def test_fuel_goes_with_power() -> None:
    assert fuel_kg_per_h(88e3, 0.3) == pytest.approx(26.4)


@pytest.mark.parametrize("ratio", [1.0, 0.4, -2.0])
def test_a_compression_of_one_or_less_is_refused(ratio: float) -> None:
    with pytest.raises(BadGeometry, match=r"compression_ratio is .*: it must be above 1"):
        clearance_volume_m3(LITRE, ratio)
