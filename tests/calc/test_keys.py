"""The list of keys: none means two things, and none hides another."""

from __future__ import annotations

from itertools import combinations

from quotes.calc.keys import BEGIN, GO, KEY_GROUPS

PRESSED = [key.keys for group in KEY_GROUPS for key in group.keys if key.page or key.press]


def test_no_keys_do_two_things() -> None:
    assert len(set(PRESSED)) == len(PRESSED)


def test_no_key_is_the_beginning_of_another() -> None:
    for one, other in combinations(sorted(PRESSED), 2):
        assert not other.startswith(f"{one} ")


def test_what_opens_a_page_is_two_letters() -> None:
    for group, first in ((GO, "g"), (BEGIN, "n")):
        for key in group.keys:
            assert key.page
            assert [len(cap) for cap in key.caps] == [1, 1]
            assert key.caps[0] == first
