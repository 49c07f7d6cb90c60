"""What somebody left as he saw it follows who came first; what he touched stays his, list by list."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.untouched import Fields, read_seen, with_theirs, write_seen

NAMES = st.sampled_from(["name", "note", "tax-0-rate", "tax-1-rate", "tax-TOTAL_FORMS", "offers:0:cost"])
FORMS = st.dictionaries(NAMES, st.lists(st.sampled_from(["", "1", "2"]), min_size=1, max_size=2))


@given(FORMS, FORMS)
def test_who_touched_nothing_gets_what_stands(seen: Fields, stands: Fields) -> None:
    assert with_theirs(seen, seen, stands) == stands


@given(FORMS, FORMS)
def test_where_nobody_else_changed_anything_all_that_was_sent_stays(seen: Fields, sent: Fields) -> None:
    merged = with_theirs(seen, sent, seen)

    assert {name: values for name, values in merged.items() if any(values)} == {
        name: list(values) for name, values in sent.items() if any(values)
    }


def test_a_list_that_was_touched_in_one_row_stays_his_whole() -> None:
    seen = {"lines": ["2"], "line-0-quantity": ["1"], "line-1-quantity": ["1"], "note": ["Rang"]}
    sent = seen | {"line-1-quantity": ["3"]}
    stands = {"lines": ["1"], "line-0-quantity": ["1"], "note": ["Rang twice"]}

    assert with_theirs(seen, sent, stands) == sent | {"note": ["Rang twice"]}


def test_line_ends_and_a_tick_taken_off_are_known() -> None:
    seen = {"address": ["4 Yard\nAnyborough"], "drop": ["on"]}

    assert with_theirs(
        seen, {"address": ["4 Yard\r\nAnyborough"]}, {"address": ["5 Yard"], "drop": ["on"]}
    ) == {"address": ["5 Yard"]}


def test_what_nobody_fills_in_stays_as_it_was_sent() -> None:
    assert with_theirs({"version": ["1"]}, {"version": ["1"]}, {"version": ["2"]}) == {"version": ["1"]}


@pytest.mark.parametrize("text", ["", "{", "[]", '{"a": "b"}', '{"a": [1]}', "[" * 100_000, '{"a": null}'])
def test_a_note_that_can_not_be_read_is_none(text: str) -> None:
    assert read_seen(text) is None


@given(FORMS)
def test_a_note_comes_back_as_it_was_written(fields: Fields) -> None:
    assert read_seen(write_seen(fields)) == fields
