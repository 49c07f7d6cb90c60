"""A series counts from 1 to where its counter stands, each number once."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.record.series import number_in, series_faults, series_of, sorted_into_series

YEAR = ("I", 2026)


def said(numbers: Iterable[str], counter: int, kind: str = "I") -> list[str]:
    """What is wrong with numbers of one letter whose counter of 2026 stands so far."""
    given_out, strange = sorted_into_series((kind, number) for number in numbers)
    of_series = series_faults(given_out, {(kind, 2026): counter})
    return [str(fault) for fault in (*strange, *(fault for found in of_series for fault in found))]


def test_a_series_without_a_gap_says_nothing() -> None:
    assert said(["I-2026-0002", "I-2026-0001"], 2) == []


@pytest.mark.parametrize(
    ("numbers", "counter", "line"),
    [
        (
            ["I-2026-0001", "I-2026-0005"],
            5,
            "Series I 2026: numbers without a gap: expected a document for I-2026-0002 to I-2026-0004, "
            "found none",
        ),
        (
            ["I-2026-0001"],
            2,
            "Series I 2026: numbers without a gap: expected a document for I-2026-0002, found none",
        ),
        (["I-2026-0001", "I-2026-0002"], 1, "Series I 2026: its counter: expected 2 or more, found 1"),
        (
            ["I-2026-0001", "I-2026-0001"],
            1,
            "Series I 2026: number I-2026-0001: expected one document, found another one that bears it",
        ),
        (
            ["I-2026-0001", "C-2026-0002"],
            1,
            "C-2026-0002: number: expected one of the series I, found C-2026-0002",
        ),
    ],
    ids=["gap", "lost at the end", "counter behind", "double", "of another series"],
)
def test_what_is_wrong_with_a_series_is_one_line(numbers: list[str], counter: int, line: str) -> None:
    assert said(numbers, counter) == [line]


def test_one_through_the_years_counts_for_itself() -> None:
    given_out, _ = sorted_into_series([("I", "I-00001"), ("I", "I-2026-0001")])

    assert [*series_faults(given_out, {("I", 0): 1, YEAR: 1})] == [(), ()]


@given(st.sets(st.integers(1, 60), max_size=60), st.integers(0, 60))
def test_every_number_that_nothing_bears_is_named_once(counts: set[int], counter: int) -> None:
    lines = [line for line in said((number_in(YEAR, one) for one in counts), counter) if "gap" in line]
    named: list[int] = []
    for line in lines:
        ends = [series_of(word, "I") for word in line.replace(",", "").split() if word.startswith("I-2026")]
        first, last = (end[1] for end in (ends[0], ends[-1]) if end)
        named += range(first, last + 1)

    assert named == sorted(set(range(1, max(counter, *counts, 0) + 1)) - counts)
