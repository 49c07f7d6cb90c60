"""What is looked for in the box of the head: numbers as people type them, and which words stand where."""

from __future__ import annotations

import pytest

from quotes.calc.find import (
    Found,
    Hit,
    beginnings,
    customer_meant,
    is_exactly,
    matching,
    number_meant,
    sought,
    the_one_meant,
)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("Q-2026-0004", "Q-2026-0004"),
        ("q20260004", "Q-2026-0004"),
        (" i 2026 0012 ", "I-2026-0012"),
        ("r-00012", "R-00012"),
        ("H4-20417", ""),
        ("Q-1026-0004", ""),
        ("otten", ""),
        ("Q-2026-0004 otten", ""),
    ],
)
def test_a_number_is_known_however_it_is_typed(typed: str, meant: str) -> None:
    assert number_meant(typed) == meant


@pytest.mark.parametrize(
    ("word", "begin"),
    [
        ("q", ("Q-",)),
        ("q20", ("Q-20",)),
        ("i2026", ("I-2026",)),
        ("i202600", ("I-2026-00", "I-202600")),
        ("opening", ("opening",)),
    ],
)
def test_the_beginning_of_a_number_is_known_without_its_dashes(word: str, begin: tuple[str, ...]) -> None:
    assert beginnings(word) == begin


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("C-7", 7), ("c 7", 7), ("c0012", 12), ("7", None), ("C-0", None), ("C-2026-0001", None)],
)
def test_a_customers_number_is_known_however_it_is_typed(typed: str, meant: int | None) -> None:
    assert customer_meant(typed) == meant


def test_what_is_typed_is_folded_and_cut_off() -> None:
    looked_for = sought("  ÅNGSTRÖM\x00 h4-20417 " + "x " * 200)

    assert looked_for.words[:3] == ("angstrom", "h4", "20417")
    assert len(looked_for.words) == 6
    assert len(looked_for.typed) == 120


@pytest.mark.parametrize(("typed", "enough"), [("", False), ("é", False), ("--", False), ("ab", True)])
def test_one_letter_is_too_little(typed: str, enough: bool) -> None:
    assert sought(typed).is_enough == enough


def test_what_matched_is_named_with_and_without_blanks() -> None:
    fields = [("name", "Zoë Ångström"), ("telephone", "0555 12 34"), ("email", "zoe@example.org")]

    assert matching(("zoe",), fields) == ("name", "email")
    assert matching(("05551234",), fields) == ("telephone",)


def test_dashes_do_not_keep_a_number_from_being_the_one_typed() -> None:
    assert is_exactly(sought("h420417"), "H4-20417")
    assert not is_exactly(sought("h4"), "H4-20417")
    assert not is_exactly(sought("--"), "--")


def hit(pk: int, *, exact: bool) -> Hit:
    return Hit("engine", (pk,), f"H4-{pk}", (), (), exact)


def test_only_one_thing_of_that_number_is_led_to() -> None:
    one, other, like = hit(1, exact=True), hit(2, exact=True), hit(3, exact=False)

    assert the_one_meant([Found("Engines", (like, one), more=False)]) == one
    assert the_one_meant([Found("Engines", (one,), more=False), Found("Jobs", (other,), more=False)]) is None
    assert the_one_meant([Found("Engines", (like,), more=False)]) is None
