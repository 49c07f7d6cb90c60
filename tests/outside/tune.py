"""How pistons move, how big an engine is, and what its gas does, from handbooks and textbooks."""

from __future__ import annotations

import math

from quotes.calc.tune.gas import bmep_pa, otto_efficiency, torque_nm
from quotes.calc.tune.geometry import clearance_volume_m3, swept_volume_m3
from quotes.calc.tune.kinematics import (
    crank_speed_rad_per_s,
    mean_piston_speed_m_per_s,
    peak_piston_acceleration_m_per_s2,
    piston_acceleration_m_per_s2,
)
from tests.outside.check import OutsideCheck

LITRE = 1e-3
INCH_IN_M = 0.0254
FOOT_IN_M = 0.3048


def dead_centres(radius: float, rod: float, speed: float) -> tuple[float, float]:
    """Acceleration at the top, toward the crank, and at the bottom, away from it."""
    bottom = piston_acceleration_m_per_s2(radius, rod, speed, math.pi)
    return peak_piston_acceleration_m_per_s2(radius, rod, speed), -bottom


def in_feet(stroke_in: float, rod_in: float, revs: float) -> tuple[float]:
    radius, rod = stroke_in / 2 * INCH_IN_M, rod_in * INCH_IN_M
    return (peak_piston_acceleration_m_per_s2(radius, rod, crank_speed_rad_per_s(revs)) / FOOT_IN_M,)


def square_engine(litres: float, cylinders: int, revs: float, ratio: float) -> tuple[float, float, float]:
    """Bore and stroke in cm, piston speed, clearance of one cylinder in cm3."""
    one = litres * LITRE / cylinders
    bore = (one / swept_volume_m3(1.0, 1.0)) ** (1 / 3)
    speed = mean_piston_speed_m_per_s(bore, revs)
    return bore * 100, speed, clearance_volume_m3(one, ratio) * 1e6


def from_torque(torque: float, litres: float, revs: float) -> tuple[float, float]:
    """Power in kW and mean effective pressure in kPa."""
    watts = torque * crank_speed_rad_per_s(revs)
    pressure = bmep_pa(watts, litres * LITRE, revs)
    assert math.isclose(torque_nm(pressure, litres * LITRE), torque)
    return watts / 1e3, pressure / 1e3


def otto(ratio: float, gamma: float) -> tuple[float]:
    return (otto_efficiency(ratio, gamma),)


CHECKS = (
    OutsideCheck(
        "piston acceleration at both dead centres, m/s2",
        dead_centres,
        (0.1, 0.2, 1.0),
        (0.15, 0.05),
        (1e-9, 1e-9),
        "slider-crank, first two harmonics (Bosch Automotive Handbook; Taylor)",
        "arithmetic",
    ),
    OutsideCheck(
        "peak piston acceleration in the imperial form, ft/s2",
        in_feet,
        (2.5, 4.5, 9000.0),
        (118205.0,),
        (60.0,),
        "engine-tuning handbooks, N^2 S/2189 (1 + 1/2A): formula from memory, worked out",
        "arithmetic",
    ),
    OutsideCheck(
        "square six of 3 litres: bore cm, piston speed m/s, clearance cm3",
        square_engine,
        (3.0, 6, 3600.0, 9.5),
        (8.6, 10.32, 59.0),
        (0.005, 0.005, 0.5),
        "Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, example 2-1",
        "published, value from memory",
    ),
    OutsideCheck(
        "205 N m of 3 litres at 3600: kW, kPa",
        from_torque,
        (205.0, 3.0, 3600.0),
        (77.3, 859.0),
        (0.05, 0.5),
        "Pulkrabek, example 2-2",
        "published, value from memory",
    ),
    OutsideCheck(
        "Otto efficiency, ratio 8, gamma 1.4",
        otto,
        (8.0, 1.4),
        (0.565,),
        (0.0006,),
        "Cengel and Boles, Thermodynamics, Otto cycle",
        "published, value from memory",
    ),
    OutsideCheck(
        "Otto efficiency, ratio 8.6, gamma 1.35",
        otto,
        (8.6, 1.35),
        (0.529,),
        (0.001,),
        "Pulkrabek, example 3-1",
        "published, value from memory",
    ),
)
