"""A reading past its limit."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.ask.request import Reading
from quotes.calc.scope.rules.reading_past_limit import find
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import demands


def reading(component: str, value: str) -> Reading:
    return Reading(
        component=component,
        quantity="free length",
        place="cylinder 2 inlet",
        value=Decimal(value),
        unit="mm",
        standard=Decimal("39.0"),
        limit=Decimal("38.0"),
        bad_when="below",
    )


def test_a_part_past_its_limit_is_renewed_and_the_reading_says_why() -> None:
    found = demands(find, asked(readings=(reading("valve_spring", "37.6"),)))
    assert found == {
        ("new", "valve_spring"): "cylinder 2 inlet: free length 37.6 mm, limit 38.0 "
        "(default, not from your manual)."
    }


def test_a_part_within_its_limit_is_not() -> None:
    assert demands(find, asked(readings=(reading("valve_spring", "38.0"),))) == {}


def test_what_machine_work_can_bring_back_need_not_be_new() -> None:
    assert set(demands(find, asked(readings=(reading("bore", "37.0"),)))) == {("done", "bore")}
