"""What keeps a record open, and what the owner's word lets pass."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from quotes.calc.bench.assembly.missing import Answer, missing
from quotes.calc.bench.assembly.requirements import Requirement
from tests.quotes.cast import NOW

STRETCH = Requirement("bolt_stretch", "rod_bolt", "rods_on", "stretch", "words", ("bolt 1", "bolt 2"))
GAP = Requirement("gap", "rings", "ring_gap_fit", "gap", "figure", unit="mm")
CHECK = Requirement("check", "rod_bolt", "rods_on", "rod bolts", "second", checks=("bolt_stretch",))
BOLT_1, BOLT_2 = ("bolt_stretch", "bolt 1"), ("bolt_stretch", "bolt 2")
AT_GAP, AT_CHECK = ("gap", ""), ("check", "")
SOON = NOW + timedelta(minutes=5)


def why(
    one: Requirement,
    answers: dict[tuple[str, str], Answer],
    conceded: dict[tuple[str, str], datetime] | None = None,
) -> list[tuple[str, str]]:
    return [(row.place, row.why) for row in missing([one], answers, conceded or {})]


def by(name: str, at: datetime = NOW, within: bool | None = None) -> Answer:
    return Answer(name, at, within)


def test_each_place_without_an_entry_is_missing() -> None:
    assert why(STRETCH, {BOLT_1: by("bram")}) == [("bolt 2", "empty")]


@pytest.mark.parametrize(("within", "kept"), [(True, []), (None, []), (False, [("", "outside")])])
def test_a_figure_outside_its_limits_is_missing(within: bool | None, kept: list[object]) -> None:
    assert why(GAP, {AT_GAP: by("bram", within=within)}) == kept


def test_the_owners_word_lets_an_empty_place_pass() -> None:
    assert why(GAP, {}, {AT_GAP: NOW}) == []


def test_his_word_holds_for_the_figure_that_he_saw_and_not_for_a_later_one() -> None:
    assert why(GAP, {AT_GAP: by("bram", NOW, False)}, {AT_GAP: SOON}) == []
    assert why(GAP, {AT_GAP: by("bram", SOON, False)}, {AT_GAP: NOW}) == [("", "outside")]


def test_the_second_person_is_another_than_any_who_did_the_work() -> None:
    done = {BOLT_1: by("bram"), BOLT_2: by("ida")}
    assert why(CHECK, {**done, AT_CHECK: by("ida", SOON)}) == [("", "same person")]
    assert why(CHECK, {**done, AT_CHECK: by("orla", SOON)}) == []


def test_what_was_changed_after_the_check_is_looked_at_again() -> None:
    assert why(CHECK, {BOLT_1: by("bram", SOON), AT_CHECK: by("orla")}) == [("", "changed since")]
