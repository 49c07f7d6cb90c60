"""What is typed to find a part."""

from __future__ import annotations

import pytest

from catalogue.calc.sought_parts import LONGEST, MOST_WORDS, sought_parts


@pytest.mark.parametrize(
    ("typed", "words", "number"),
    [
        ("Valve  Spring", ("valve", "spring"), "VALVESPRING"),
        ("kx-104 230a", ("kx", "104", "230a"), "KX104230A"),
        ("Dichtungssätze", ("dichtungssatze",), "DICHTUNGSSATZE"),
        ("ring ring", ("ring",), "RINGRING"),
        ("ring\x00", ("ring",), "RING"),
        ("--", (), ""),
    ],
)
def test_words_are_folded_and_the_whole_is_a_number(typed: str, words: tuple[str, ...], number: str) -> None:
    sought = sought_parts(typed)
    assert (sought.words, sought.number) == (words, number)


def test_two_letters_are_enough() -> None:
    assert sought_parts("o2").is_enough
    assert not sought_parts("-x-").is_enough


def test_what_nobody_types_is_cut_off() -> None:
    assert len(sought_parts("x" * 500).typed) == LONGEST
    assert len(sought_parts(" ".join(map(str, range(50)))).words) == MOST_WORDS
