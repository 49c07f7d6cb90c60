"""The last look: what bears on the rider's safety is answered, and mended where it is not well."""

from __future__ import annotations

from quotes.calc.bench.leaving.final_questions import QUESTIONS, Said, answered, faults

SAFE: dict[str, Said] = {one.code: "yes" for one in QUESTIONS if one.rider_safety}


def test_what_bears_on_safety_is_not_left_without_an_answer() -> None:
    found = faults(answered({code: said for code, said in SAFE.items() if code != "lockwire"}, {}))

    assert list(found) == ["lockwire"]


def test_a_leak_is_mended_and_not_noted() -> None:
    assert list(faults(answered(SAFE | {"leaks": "no"}, {"leaks": "only a little"}))) == ["leaks"]


def test_other_questions_may_be_left_and_a_no_says_what_is_the_matter() -> None:
    assert faults(answered(SAFE, {})) == {}
    assert list(faults(answered(SAFE | {"coolant": "no"}, {}))) == ["coolant"]
    assert faults(answered(SAFE | {"coolant": "no"}, {"coolant": "drained for the road"})) == {}


def test_what_is_not_on_the_engine_is_an_answer() -> None:
    assert faults(answered(SAFE | {"lockwire": "not_on_it"}, {})) == {}
