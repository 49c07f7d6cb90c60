"""What is renewed and why, what is left and its risk, alone and side by side."""

from __future__ import annotations

from quotes.documents.reasons import (
    kept,
    kept_across,
    renewed,
    renewed_across,
    safety_left,
    safety_warnings,
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


def test_side_by_side_a_reason_that_differs_names_its_options() -> None:
    other = FULL.renewed["valve_spring"].model_copy(update={"sentence": "Race springs."})
    full = FULL.model_copy(update={"renewed": {**FULL.renewed, "valve_spring": other}})
    (row,) = [row for row in renewed_across(comparison_with(REFRESH, full)) if row.parts == "Valve springs"]
    assert row.sentence.startswith("Refresh: Cylinder 2 inlet")
    assert row.sentence.endswith("Full power: Race springs.")


def test_side_by_side_the_risk_is_counted_in_a_hundred_and_empty_where_renewed() -> None:
    rows = {row.parts: row.cells for row in kept_across(COMPARISON)}
    assert rows["Piston"] == ("about 2", "about 2", "")


def test_rider_safety_parts_that_are_left_are_named_for_the_options_that_leave_them() -> None:
    assert [risk.component for risk in safety_left(REFRESH)] == ["piston", "main_bearing"]
    assert safety_warnings(COMPARISON) == (
        ("refresh and mild build", "piston and main bearings"),
        ("full power", "main bearings"),
    )
