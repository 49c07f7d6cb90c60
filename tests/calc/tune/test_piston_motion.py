"""Piston speed and acceleration against the exact slider-crank."""

from __future__ import annotations

import math

import numpy as np
import pytest

from quotes.calc.tune.given import BadGeometry
from quotes.calc.tune.kinematics import (
    mean_piston_speed_m_per_s,
    peak_piston_acceleration_m_per_s2,
    piston_acceleration_m_per_s2,
    reciprocating_force_n,
)


def exact_m_per_s2(crank_radius_m: float, rod_length_m: float, angle_rad: float) -> float:
    """The slider-crank at 1 rad/s, its travel differentiated twice by numbers."""
    step = 1e-4
    angles = angle_rad + step * np.array([-1.0, 0.0, 1.0])
    rod = np.sqrt(rod_length_m**2 - (crank_radius_m * np.sin(angles)) ** 2)
    height = crank_radius_m * np.cos(angles) + rod
    before, here, after = height
    return float(-(before - 2 * here + after) / step**2)


def test_two_harmonics_leave_nothing_out_at_the_dead_centres() -> None:
    for angle, expected in ((0.0, 0.15), (math.pi, -0.05)):
        assert piston_acceleration_m_per_s2(0.1, 0.2, 1.0, angle) == pytest.approx(expected, abs=1e-9)
        assert exact_m_per_s2(0.1, 0.2, angle) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(("radius_mm", "rod_mm"), [(31.05, 106), (30.0, 112), (21.25, 93), (27.5, 104)])
def test_between_them_they_leave_out_under_a_fiftieth_of_the_peak(radius_mm: float, rod_mm: float) -> None:
    radius, rod = radius_mm / 1000, rod_mm / 1000
    peak = peak_piston_acceleration_m_per_s2(radius, rod, 1.0)
    angles = np.radians(np.arange(0, 360, 5))
    exact = np.array([exact_m_per_s2(radius, rod, angle) for angle in angles])
    ours = np.array([piston_acceleration_m_per_s2(radius, rod, 1.0, angle) for angle in angles])
    assert exact.max() == pytest.approx(peak, rel=1e-5)
    assert np.abs(ours - exact).max() < peak / 50


def test_a_rod_of_twice_the_throw_shows_what_they_leave_out() -> None:
    angles = np.radians(np.arange(0, 360, 1))
    apart = [piston_acceleration_m_per_s2(0.1, 0.2, 1.0, a) - exact_m_per_s2(0.1, 0.2, a) for a in angles]
    assert 0.005 < np.abs(apart).max() < 0.15 / 10


def test_a_piston_goes_two_strokes_a_revolution() -> None:
    assert mean_piston_speed_m_per_s(0.0425, 16000) == pytest.approx(22.67, abs=0.005)


def test_force_is_mass_times_acceleration() -> None:
    assert reciprocating_force_n(0.22, 1000.0) == pytest.approx(220.0)


@pytest.mark.parametrize(
    ("radius", "rod", "speed", "words"),
    [
        (0.0, 0.2, 1.0, "crank_radius_m is 0: it must be above 0"),
        (0.1, 0.1, 1.0, "rod_length_m is 0.1: it must be above half the stroke, 0.1"),
        (0.1, math.nan, 1.0, "rod_length_m is nan: it must be above half the stroke, 0.1"),
        (0.1, 0.2, math.inf, "speed_rad_per_s is inf: it must be above 0"),
    ],
)
def test_what_no_crank_can_be_is_refused_by_name(radius: float, rod: float, speed: float, words: str) -> None:
    with pytest.raises(BadGeometry, match=f"^{words}$"):
        peak_piston_acceleration_m_per_s2(radius, rod, speed)
