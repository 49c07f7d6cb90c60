"""A person is taken out of what was frozen, and nothing else is; books are kept to the end of a year."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.erasure.keeping import books_kept_until
from quotes.calc.erasure.thawed import Person, out_of_json, out_of_text, person

STANDS_IN = "erased customer C-7"
MAREL = person(STANDS_IN, "Marel Otten", "4 Quay Row\nAnyborough", "000 555 0199", "marel@otten.example", "")
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


def test_the_party_of_a_sheet_becomes_who_stands_in() -> None:
    sheet = {
        "heading": {"customer": {"name": "M. Otten", "lines": ["4 Quay Row"], "telephone": "1", "email": ""}}
    }

    assert out_of_json(sheet, MAREL) == {
        "heading": {"customer": {"name": STANDS_IN, "lines": [], "telephone": "", "email": ""}}
    }


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Ring MAREL OTTEN on 000 555 0199.", f"Ring {STANDS_IN} on {STANDS_IN}."),
        ("From 4 Quay Row, Anyborough", f"From {STANDS_IN}, {STANDS_IN}"),
        ("The Marel Ottenburg trophy", "The Marel Ottenburg trophy"),
        ("14 Quay Row", "14 Quay Row"),
        ("", ""),
    ],
)
def test_his_words_go_out_of_a_text_and_others_stay(text: str, left: str) -> None:
    assert out_of_text(text, MAREL) == left


def test_who_speaks_for_him_goes_wherever_a_key_says_so() -> None:
    assert out_of_json({"signed_by": "Ines Roe", "reason": "Sold soon"}, MAREL) == {
        "signed_by": STANDS_IN,
        "reason": "Sold soon",
    }


def test_short_words_are_not_taken_for_his_alone() -> None:
    assert person(STANDS_IN, "Al", "Row 4\nX").known == ("Row 4",)


@settings(max_examples=30)
@given(JSON)
def test_whom_it_does_not_name_leaves_it_as_it_was(value: object) -> None:
    nobody = Person(STANDS_IN)
    named = {"customer", "buyer", "signed_by", "said_by", "brought_by", "released_to", "authority_name"}
    if not any(word in str(value) for word in named):
        assert out_of_json(value, nobody) == value


@settings(max_examples=30)
@given(JSON)
def test_taking_him_out_twice_is_taking_him_out_once(value: object) -> None:
    whole = {"customer": {"name": "Marel Otten"}, "words": ["of Marel Otten", value]}
    once = out_of_json(whole, MAREL)

    assert out_of_json(once, MAREL) == once
    assert "Marel Otten" not in str(once["customer"])


@pytest.mark.parametrize(
    ("days", "years", "until"),
    [
        ([], 10, None),
        ([date(2026, 1, 1)], 10, date(2036, 12, 31)),
        ([date(2024, 2, 29), date(2026, 12, 31)], 7, date(2033, 12, 31)),
    ],
)
def test_books_are_kept_as_long_as_the_youngest_of_them(
    days: list[date], years: int, until: date | None
) -> None:
    assert books_kept_until(days, years) == until
