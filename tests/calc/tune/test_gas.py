"""Volumes, pressure, work and fuel, against the textbooks' worked examples."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.tune.gas import (
    bmep_pa,
    compression_gain_at_most_pct,
    fuel_kg_per_h,
    otto_efficiency,
    otto_gain,
    peak_pressure_ratio,
    power_w,
    torque_nm,
)
from quotes.calc.tune.geometry import clearance_volume_m3, compression_ratio_of, swept_volume_m3
from quotes.calc.tune.given import BadGeometry
from quotes.calc.tune.kinematics import mean_piston_speed_m_per_s

ratios = st.floats(5.0, 18.0)
revs = st.floats(1000.0, 20000.0)
pressures = st.floats(1e5, 3e6)
LITRE = 1e-3


def test_a_square_six_of_three_litres() -> None:
    """Pulkrabek, example 2-1, from memory: bore and stroke 8.6 cm, 10.32 m/s at 3600, 59 cm3 clearance."""
    one = 3 * LITRE / 6
    bore = (4 * one / math.pi) ** (1 / 3)
    assert swept_volume_m3(bore, bore, 6) == pytest.approx(3 * LITRE)
    assert bore * 100 == pytest.approx(8.6, abs=0.005)
    assert mean_piston_speed_m_per_s(bore, 3600) == pytest.approx(10.32, abs=0.005)
    assert clearance_volume_m3(one, 9.5) * 1e6 == pytest.approx(59, abs=0.5)


def test_two_hundred_and_five_newton_metres_of_three_litres() -> None:
    """Pulkrabek, example 2-2, from memory: 77.3 kW at 3600, bmep 859 kPa."""
    pressure = 859e3
    assert torque_nm(pressure, 3 * LITRE) == pytest.approx(205, abs=0.2)
    assert power_w(pressure, 3 * LITRE, 3600) / 1000 == pytest.approx(77.3, abs=0.05)
    assert bmep_pa(77.3e3, 3 * LITRE, 3600) / 1000 == pytest.approx(859, abs=0.5)


@pytest.mark.parametrize(
    ("ratio", "gamma", "expected", "within"),
    [
        (8.0, 1.4, 0.565, 0.0006),  # Cengel and Boles, Otto cycle, from memory
        (8.6, 1.35, 0.529, 0.001),  # Pulkrabek, example 3-1, from memory
    ],
)
def test_the_otto_cycle_of_the_textbooks(ratio: float, gamma: float, expected: float, within: float) -> None:
    assert otto_efficiency(ratio, gamma) == pytest.approx(expected, abs=within)


@given(pressures, revs)
def test_power_is_torque_times_speed(pressure: float, rpm: float) -> None:
    watts = power_w(pressure, LITRE, rpm)
    assert watts == pytest.approx(torque_nm(pressure, LITRE) * 2 * math.pi * rpm / 60)
    assert bmep_pa(watts, LITRE, rpm) == pytest.approx(pressure)


@given(ratios)
def test_clearance_and_compression_say_the_same(ratio: float) -> None:
    assert compression_ratio_of(LITRE, clearance_volume_m3(LITRE, ratio)) == pytest.approx(ratio)


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
