"""A figure that was typed is read as its writer's language has it, and never in the wrong way."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.typed_figure import NOT_READ, two_ways, typed_figure

FIGURES = st.decimals(-10_000_000, 10_000_000, places=3, allow_nan=False)


@pytest.mark.parametrize(
    ("typed", "english", "german"),
    [
        ("4100", "4100", "4100"),
        ("4,100", "4100", "4.100"),
        ("38.5", "38.5", "38.5"),
        ("38,5", "38,5", "38.5"),
        ("0.012", "0.012", "0.012"),
        ("0,012", "0,012", "0.012"),
        ("1.234", "1.234", NOT_READ),
        ("-12.500", "-12.500", NOT_READ),
        ("1.234.567", "1.234.567", "1234567"),
        ("1.234,50", "1.234,50", "1234.50"),
        ("1,234.50", "1234.50", "1234.50"),
        ("12 000,5", "12 000,5", "12000.5"),
        ("12\N{NO-BREAK SPACE}000", "12000", "12000"),
        ("\N{MINUS SIGN}6,5", "-6,5", "-6.5"),
        ("1,2,3", "1,2,3", "1,2,3"),
        ("six", "six", "six"),
    ],
)
def test_marks_are_those_of_the_language(typed: str, english: str, german: str) -> None:
    assert (typed_figure(typed, "."), typed_figure(typed, ",")) == (english, german)


@given(FIGURES, st.sampled_from(".,"))
def test_what_a_page_shows_is_read_again_as_it_was(value: Decimal, mark: str) -> None:
    shown = f"{value:f}".replace(".", mark)

    assert Decimal(typed_figure(shown, mark)) == value


@given(FIGURES)
def test_a_german_figure_with_its_thousands_is_never_read_as_another(value: Decimal) -> None:
    written = f"{value:,f}".translate(str.maketrans(",.", ".,"))

    assert Decimal(typed_figure(written, ",")) == value


def test_what_can_be_read_in_two_ways_says_both() -> None:
    assert two_ways("1.234", ",") == "“1.234” can be read in two ways: write 1234 or 1,234."
    assert two_ways("1.234", ".") == two_ways("1,234", ",") == ""
