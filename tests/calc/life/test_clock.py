"""The damage clock: shares of life, carried between uses, dates and renewals."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.ask.request import Reading, Request
from quotes.calc.life.clock import Used, fitted_tier, is_past_limit, used_shares
from tests.calc.asked import asked, ran
from tests.cast import shipped


def share(request: Request, component: str) -> Used:
    return used_shares(request, shipped(request.engine.type))[component]


def test_sprint_miles_on_a_standard_tune_wear_one_for_one() -> None:
    """4,500 miles is the reference life of the springs, and sprint the reference duty."""
    assert share(asked("four600", ran(4500)), "valve_spring").share == pytest.approx(1.0)


def test_damage_adds_over_segments_as_palmgren_and_miner_have_it() -> None:
    """Palmgren 1924, Miner 1945: shares of life add, whatever the order."""
    sprint, endurance = ran(1000), ran(1500, duty="endurance")
    together = share(asked("four600", sprint, endurance), "valve_spring").share
    alone = [share(asked("four600", each), "valve_spring").share for each in (sprint, endurance)]
    assert together == pytest.approx(sum(alone))
    assert share(asked("four600", endurance, sprint), "valve_spring").share == pytest.approx(together)


def test_motocross_hours_carry_over_as_a_share_of_each_parts_own_life() -> None:
    """38 motocross hours are 1.27 piston lives, not 38 times so many miles."""
    single = asked("single450", ran(38, "h", "motocross"), amount=25, unit="h", duty="motocross")
    assert share(single, "piston").share == pytest.approx(38 / 30)
    on_the_road = asked("single450", ran(38, "h", "motocross"), amount=500, unit="mi", duty="sprint")
    assert share(on_the_road, "piston").share == pytest.approx(38 / 30)


def test_kilometres_and_hours_come_to_the_same_miles() -> None:
    """1.609344 km is a mile (exact); track hours run at the pace of the duty's own events."""
    miles = share(asked("four600", ran(1000)), "valve_spring").share
    assert share(asked("four600", ran(1609.344, "km")), "valve_spring").share == pytest.approx(miles)
    sprint = shipped("four600").duties["sprint"]
    hours = 1000 * sprint.event_hours / (sprint.event_miles or 1)
    assert share(asked("four600", ran(hours, "h")), "valve_spring").share == pytest.approx(miles)


def test_full_power_wears_springs_faster_in_the_same_miles() -> None:
    standard = share(asked("four600", ran(1000)), "valve_spring").share
    pushed = share(asked("four600", ran(1000, tier="full")), "valve_spring").share
    assert pushed / standard == pytest.approx(1 / (1 / (0.8 / 0.25 + 0.2 / 0.5)), rel=1e-6)


def test_a_renewed_part_counts_only_what_came_after() -> None:
    engine = {"renewed": {"clutch_friction": {"at": "3000", "unit": "mi"}}}
    late = share(asked("four600", ran(4100), engine=engine), "clutch_friction").share
    assert late == pytest.approx(1100 / 2500)
    assert share(asked("four600", ran(4100), engine=engine), "clutch_spring").share > 1.0


def test_a_renewal_falls_into_the_right_one_of_two_segments() -> None:
    engine = {"renewed": {"valve_spring": {"at": "1500", "unit": "mi"}}}
    found = share(asked("four600", ran(1000), ran(1000), engine=engine), "valve_spring").share
    assert found == pytest.approx(500 / 4500)


def test_an_unknown_history_is_counted_half_used_and_says_so() -> None:
    assert share(asked(engine={"history": None}), "piston") == Used(0.5, known=False)


def test_an_engine_that_never_ran_is_new() -> None:
    assert share(asked(), "piston").share == 0.0


def test_the_calendar_wears_what_ages_on_the_shelf() -> None:
    """A year counts for 1,800 miles where wear is by time; common practice, no source."""
    dates: dict[str, Any] = {"from": date(2025, 2, 1), "to": date(2026, 2, 1)}
    two_years = ran(1000, **dates)
    seal = shipped("four600").components["output_seal"]
    dated = share(asked("four600", two_years), "output_seal").share
    undated = share(asked("four600", ran(1000)), "output_seal").share
    by_time = seal.drivers["time"] * 1800 * 2 / seal.lives["miles"].typical
    by_use = undated * (1 - seal.drivers["time"])
    assert dated == pytest.approx(by_use + by_time, rel=0.01)


def test_the_tune_fitted_now_is_the_last_segments_unless_told() -> None:
    catalogue = shipped("four600")
    assert fitted_tier(asked("four600", ran(100), ran(100, tier="full")), catalogue).code == "full"
    assert fitted_tier(asked("four600", ran(100), engine={"fitted": "mild"}), catalogue).code == "mild"
    assert fitted_tier(asked(), catalogue).code == "refresh"


def reading(value: str) -> Reading:
    return Reading(
        component="valve_spring",
        quantity="free length",
        value=Decimal(value),
        unit="mm",
        standard=Decimal("39.0"),
        limit=Decimal("38.0"),
        bad_when="below",
    )


@pytest.mark.parametrize(("value", "expected"), [("39.0", 0.25), ("38.5", 0.5), ("38.0", 0.75)])
def test_a_reading_within_limits_moves_the_clock_half_way(value: str, expected: float) -> None:
    request = asked("four600", ran(2250), readings=(reading(value),))
    assert share(request, "valve_spring").share == pytest.approx(expected)


def test_a_reading_alone_speaks_where_the_history_is_not_known() -> None:
    request = asked(engine={"history": None}, readings=(reading("38.2"),))
    assert share(request, "valve_spring").share == pytest.approx(0.8)
    assert share(request, "valve_spring").known


@pytest.mark.parametrize(("value", "past"), [("38.0", False), ("37.99", True)])
def test_the_limit_itself_is_still_within(value: str, past: bool) -> None:
    assert is_past_limit(reading(value)) is past
