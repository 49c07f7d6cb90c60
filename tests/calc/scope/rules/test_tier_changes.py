"""What the tier's template demands."""

from __future__ import annotations

from quotes.calc.scope.rules.tier_changes import find, once_open
from tests.calc.asked import asked, ran
from tests.calc.scope.rules.demands import case_of, demands, renewed


def test_refresh_demands_nothing_by_itself() -> None:
    assert demands(find, asked(), "refresh") == {}


def test_refresh_takes_its_whole_list_when_it_is_switched_on() -> None:
    assert {"valve_spring", "cam_chain", "shim"} <= renewed(find, asked(refresh_list=True), "refresh")


def test_mild_changes_cams_and_springs_and_sends_the_head_out() -> None:
    found = demands(find, asked(), "mild")
    assert {("new", "cam_intake"), ("new", "valve_spring"), ("out", "port_light")} <= set(found)
    assert found["new", "cam_intake"] == "Part of mild build."


def test_an_engine_that_arrives_full_power_is_not_sold_its_cams_again() -> None:
    assert demands(find, asked("four600", ran(500, tier="full")), "full") == {}
    assert demands(find, asked("four600", ran(500, tier="full")), "mild") == {}


def test_with_the_cylinders_in_the_case_rings_wait_until_it_is_open() -> None:
    request = asked()
    assert "rings" not in renewed(find, request, "mild")
    assert ("new", "rings") in {must.node for must in once_open(case_of(request, "mild"))}


def test_a_single_gets_its_rings_at_once() -> None:
    single = asked("single450", amount=20, unit="h", duty="motocross")
    assert "rings" in renewed(find, single, "mild")


def test_two_thirds_of_six_gears_are_four_pieces() -> None:
    pieces = {must.node[1]: must.pieces for must in find(case_of(asked(), "full")) if must.node[0] == "out"}
    assert pieces["gear_undercut"] == 4
    assert pieces["seat_cut"] == 16
