"""Age at the end of the planned service."""

from __future__ import annotations

from quotes.calc.scope.rules.age_at_end import find
from tests.calc.asked import asked, ran, tired_single
from tests.calc.scope.rules.demands import demands, renewed


def test_springs_that_would_pass_their_life_in_this_service_are_renewed() -> None:
    found = demands(find, asked("four600", ran(3000), amount=1800, duty="sprint"))
    said = found["new", "valve_spring"].replace("\N{NO-BREAK SPACE}", " ")
    assert said == "67 % of its planned life used; 107 % at the end of this service."


def test_where_no_engine_lasts_the_service_the_end_is_the_next_opening() -> None:
    """A piston of 30 hours in 70: nothing says what it would have used had nobody opened the engine."""
    request = asked("single450", ran(20, "h", "motocross"), amount=70, unit="h", duty="motocross")
    said = demands(find, request)["new", "piston"].replace("\N{NO-BREAK SPACE}", " ")
    assert said == "67 % of its planned life used; 125 % when the engine is next opened."


def test_springs_that_would_not_stay() -> None:
    assert "valve_spring" not in renewed(find, asked("four600", ran(2000), amount=1800, duty="sprint"))


def test_a_part_that_is_measured_is_never_condemned_by_age_alone() -> None:
    assert "valve_intake" not in renewed(find, asked("four600", ran(40_000), amount=1800, duty="sprint"))


def test_a_part_that_has_not_run_is_not_renewed_however_long_the_service() -> None:
    assert renewed(find, asked("four600", amount=20_000, duty="sprint")) == set()


def test_on_the_roller_single_rings_and_piston_are_judged_by_their_hours() -> None:
    assert {"rings", "piston", "con_rod"} <= renewed(find, tired_single())


def test_oil_and_filter_are_changed_at_their_own_interval() -> None:
    found = demands(find, asked("four600", ran(3000), amount=1800, duty="sprint"))
    assert found["new", "engine_oil"] == "Its own interval is up before this service ends."


def test_a_part_with_an_age_of_its_own_is_named_by_its_serial() -> None:
    """The engine has run 100 miles; the springs that were put into it 3,000."""
    carried = {"valve_spring": {"serial": "VS-3", "history": [ran(3000).model_dump()]}}
    request = asked("four600", ran(100), amount=1800, duty="sprint", engine={"carried": carried})
    said = demands(find, request)["new", "valve_spring"].replace("\N{NO-BREAK SPACE}", " ")
    assert said == "VS-3: 67 % of its planned life used; 107 % at the end of this service."


def test_what_no_service_can_outlast_is_renewed_at_its_start_only_when_half_used() -> None:
    """Oil of 5 hours in 25 hours of motocross: changed on the way whatever is done now."""
    early, late = (
        renewed(find, asked("single450", ran(hours, "h", "motocross"), amount=25, unit="h", duty="motocross"))
        for hours in (2, 3)
    )
    assert "engine_oil" not in early
    assert "engine_oil" in late
