"""What is renewed and why, what is left and its risk, alone and side by side."""

from __future__ import annotations

from quotes.documents.reasons import (
    kept,
    kept_across,
    leaves_safety,
    renewed,
    renewed_across,
    safety_left,
    safety_warnings,
    small_across,
)
from tests.documents.samples import comparison_with
from tests.sample_sheet import sample_comparison

COMPARISON = sample_comparison()
REFRESH, MILD, FULL = COMPARISON.options


def test_musts_come_before_what_is_worth_it() -> None:
    states = [row.state for row in renewed(REFRESH)]
    assert states == sorted(states, key=["must", "worth it"].index)
    assert states[-1] == "worth it"


def test_parts_with_one_reason_share_a_row() -> None:
    reason = REFRESH.renewed["rod_bolt"].sentence
    again = REFRESH.renewed["valve_spring"].model_copy(update={"sentence": reason})
    option = REFRESH.model_copy(update={"renewed": {**REFRESH.renewed, "valve_spring": again}})
    (row,) = [row for row in renewed(option) if row.sentence == reason]
    assert row.parts == "Valve springs and connecting rod bolts"


def test_what_is_worked_on_and_not_renewed_says_so() -> None:
    assert "Valve seats, worked on" in [row.parts for row in renewed(REFRESH)]


def test_what_is_offered_and_left_comes_with_risk_and_price() -> None:
    rows = {row.component: row for row in kept(REFRESH, COMPARISON)}
    assert (rows["piston"].state, rows["piston"].risk, rows["piston"].cost) == (
        "left",
        "about 2 in 100",
        "$472.00",
    )
    assert rows["cam_chain_tensioner"].state == "offered"


def test_a_signed_refusal_names_who_signed() -> None:
    refused = REFRESH.left["piston"].model_copy(update={"refused_by": "Marel Otten"})
    option = REFRESH.model_copy(update={"left": {"piston": refused}})
    (row,) = [row for row in kept(option, COMPARISON) if row.component == "piston"]
    assert row.sentence.endswith("Left by the signed word of Marel Otten.")


def test_side_by_side_each_option_has_its_word_or_none() -> None:
    rows = {row.parts: row.cells for row in renewed_across(COMPARISON)}
    assert rows["Valve springs"] == ("must", "must", "must")
    assert rows["Connecting rods"] == ("", "", "must")


def test_side_by_side_another_kind_of_reason_names_its_option() -> None:
    other = FULL.renewed["valve_spring"].model_copy(update={"sentence": "Worn on.", "code": "age"})
    full = FULL.model_copy(update={"renewed": {**FULL.renewed, "valve_spring": other}})
    (row,) = [row for row in renewed_across(comparison_with(REFRESH, full)) if row.parts == "Valve springs"]
    assert row.sentence.startswith("Refresh: cylinder 2 inlet")
    assert row.sentence.endswith("Full power: worn on.")


def test_side_by_side_the_same_kind_of_reason_is_told_once() -> None:
    other = FULL.renewed["valve_spring"].model_copy(update={"sentence": "Other figures."})
    full = FULL.model_copy(update={"renewed": {**FULL.renewed, "valve_spring": other}})
    (row,) = [row for row in renewed_across(comparison_with(REFRESH, full)) if row.parts == "Valve springs"]
    assert row.sentence == REFRESH.renewed["valve_spring"].sentence


def test_side_by_side_what_the_tier_itself_asks_for_names_the_tiers() -> None:
    rows = {row.parts: row.sentence for row in renewed_across(COMPARISON)}
    assert rows["Camshafts"] == "Part of mild build and full power."


def test_parts_far_from_worn_share_one_row() -> None:
    small = REFRESH.left["piston"].model_copy(update={"stops_in_100": 0.1, "used_pct_at_end": 20.0})
    left = {"gear_3": small.model_copy(update={"name": "gear pair 3 (with dogs)"}), "drum": small}
    rows = kept(REFRESH.model_copy(update={"left": left}), COMPARISON)
    assert rows[-1].part == "Gear pair 3 and piston"
    assert rows[-1].risk == "each less than 1 in 100"
    assert rows[-1].rider_safety


def test_side_by_side_the_risk_is_counted_in_a_hundred_and_empty_where_renewed() -> None:
    rows = {row.parts: row.cells for row in kept_across(COMPARISON)}
    assert rows["Piston"] == ("about 2", "about 2", "")


def test_side_by_side_parts_far_from_worn_are_named_apart() -> None:
    small = REFRESH.left["piston"].model_copy(update={"stops_in_100": 0.1, "used_pct_at_end": 20.0})
    comparison = comparison_with(REFRESH.model_copy(update={"left": {"piston": small}}))
    assert small_across(comparison) == "piston"
    assert "Piston" not in [row.parts for row in kept_across(comparison)]


def test_any_rider_safety_part_that_is_left_takes_a_tick() -> None:
    assert leaves_safety(REFRESH)
    assert not leaves_safety(REFRESH.model_copy(update={"left": {}, "offered": {}}))


def test_rider_safety_parts_that_are_left_are_named_for_the_options_that_leave_them() -> None:
    assert [risk.component for risk in safety_left(REFRESH)] == ["piston", "main_bearing"]
    assert safety_warnings(COMPARISON) == (
        ("refresh and mild build", "piston and main bearings"),
        ("full power", "main bearings"),
    )
