"""The five honesty sentences and the cautions say what the comparison rests on."""

from __future__ import annotations

from quotes.calc.sheet.sentences import cautions, honesty
from tests.sample_sheet import sample_comparison, sample_options


def test_there_are_five_honesty_sentences() -> None:
    assert len(honesty(sample_comparison())) == 5


def test_honesty_names_the_assumed_service_and_how_the_engine_is_checked() -> None:
    first = honesty(sample_comparison(checks="never"))[0]
    assert "2,000 miles of endurance racing over 4 meetings" in first
    assert "not checked in between" in first


def test_honesty_counts_the_strip_downs_behind_the_lives() -> None:
    assert "no strip-down of our own yet" in honesty(sample_comparison())[1]
    assert "and 1 strip-down of our own" in honesty(sample_comparison(teardowns_seen=1))[1]
    assert "and 12 strip-downs of our own" in honesty(sample_comparison(teardowns_seen=12))[1]


def test_honesty_states_the_factor_for_the_shops_own_record() -> None:
    assert "factor for our own record is 1, which changes nothing" in honesty(sample_comparison())[1]
    assert "is 1.25, which scales every risk" in honesty(sample_comparison(shop_factor=1.25))[1]


def test_honesty_says_what_is_not_counted() -> None:
    excluded = honesty(sample_comparison())[3]
    for outside in ("Wiring", "fuel", "ignition", "chassis", "crash", "over-rev"):
        assert outside in excluded


def test_honesty_ends_with_no_warranty() -> None:
    assert "no warranty" in honesty(sample_comparison())[4]


def test_cautions_name_the_rider_safety_parts_that_are_left() -> None:
    assert any("Main bearings and Piston" in sentence for sentence in cautions(sample_comparison()))


def test_cautions_name_no_part_when_none_of_them_is_left() -> None:
    options = tuple(option.model_copy(update={"left": {}}) for option in sample_options())
    assert not any("Left in one" in sentence for sentence in cautions(sample_comparison(options=options)))
