"""Service stated at intake, against what was known before."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as some

from quotes.calc.ask.request import Segment
from quotes.calc.bench.stated import EarlierService, backwards, in_unit, run_since, total_of

BOOK = EarlierService(Decimal(4100), "mi", "in the engine's record")
AMOUNTS = some.decimals(min_value=0, max_value=100_000, places=2)


def stretch(amount: str, unit: str = "mi") -> Segment:
    return Segment.model_validate({"amount": amount, "unit": unit, "duty": "sprint"})


def test_less_than_was_known_runs_backwards() -> None:
    assert backwards(Decimal(3900), "mi", [BOOK]) == BOOK
    assert backwards(Decimal(4100), "mi", [BOOK]) is None


def test_of_several_records_the_one_that_says_most_is_named() -> None:
    more = EarlierService(Decimal(7000), "km", "at J-2026-0001")
    assert backwards(Decimal(4000), "mi", [BOOK, more]) == more


def test_hours_are_not_held_against_miles() -> None:
    assert backwards(Decimal(40), "h", [BOOK]) is None


def test_the_same_distance_in_another_unit_does_not_run_backwards() -> None:
    assert backwards(Decimal(6598), "km", [BOOK]) is None
    assert backwards(Decimal(6500), "km", [BOOK]) == BOOK


def test_what_was_run_since_is_the_difference() -> None:
    history = (stretch("4000"), stretch("1609.34", "km"))
    assert run_since(Decimal(5200), "mi", history) == Decimal(200)
    assert run_since(Decimal(4900), "mi", history) is None
    assert run_since(Decimal(30), "h", history) is None
    assert run_since(Decimal(30), "h", None) == Decimal(30)


def test_stretches_of_two_kinds_have_no_total() -> None:
    assert total_of((stretch("4000"), stretch("12", "h")), "mi") is None


@given(
    AMOUNTS,
    some.sampled_from(("mi", "km")),
    some.lists(some.tuples(AMOUNTS, some.sampled_from(("mi", "km")))),
)
def test_ages_never_go_backwards_unasked(
    stated: Decimal, unit: str, known: list[tuple[Decimal, str]]
) -> None:
    earlier = [EarlierService(amount, of, "on record") for amount, of in known]
    if backwards(stated, unit, earlier) is None:
        for one in earlier:
            was = in_unit(one.amount, one.unit, unit)
            assert was is not None
            assert was <= stated * Decimal("1.005")


@pytest.mark.parametrize("unit", ["mi", "km", "h", "runs"])
def test_an_engine_that_has_not_run_states_nought(unit: str) -> None:
    assert backwards(Decimal(0), unit, []) is None
    assert run_since(Decimal(0), unit, ()) == 0
