"""What is wrong with a request: the field, its value and what is allowed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.ask.faults import faults
from quotes.calc.ask.read_request import read_request
from quotes.calc.ask.request import Request
from tests.calc.asked import ON, asked, ran, tired_four
from tests.calc.small import SHOP
from tests.cast import shipped


def found(request: Request) -> dict[str, str]:
    """Field -> what is allowed, on the catalogue that ships."""
    return {fault.field: fault.allowed for fault in faults(request, shipped("four600"), SHOP)}


def dated(start: date, end: date) -> Any:
    return ran(100, **{"from": start, "to": end})  # type: ignore[arg-type]


def test_a_request_that_can_be_worked_out_has_no_fault() -> None:
    assert faults(tired_four(), shipped("four600"), SHOP) == ()


@pytest.mark.parametrize(
    ("request_", "field", "allowed"),
    [
        (asked("four601"), "engine.type", "one of four600"),
        (asked(duty="rally"), "planned.duty", "one of drag, endurance"),
        (asked("four600", ran(100, duty="rally")), "engine.history.0.duty", "one of drag"),
        (asked("four600", ran(100, tier="wild")), "engine.history.0.tier", "one of full, mild, refresh"),
        (asked(tiers=("refresh", "wild")), "tiers", "one of full, mild, refresh"),
        (asked(tiers=("mild", "mild")), "tiers", "each tier once"),
        (asked(class_code="open"), "class", "nothing yet"),
        (asked(include=("carburettor",)), "include", "a component of the 600 inline four"),
        (asked(findings=("rust",)), "findings.0", "one of"),
        (asked(findings=("dogs_rounded",)), "findings.0.component", "say which: one of gear_1"),
        (asked(events=("plates_burnt",)), "events.0", "one of crash_running_on_its_side"),
        (asked(amount=2000, unit="h", duty="motocross"), "planned.duty", "has no lives in hours"),
        (asked(amount=100_000), "planned.amount", "at most 20 seasons"),
        (asked("four600", ran(100, "runs")), "engine.history.0.unit", "can't be converted for Sprint"),
        (asked("four600", dated(date(2026, 5, 1), date(2026, 4, 1))), "engine.history.0.to", "not before"),
        (asked("four600", dated(date(2026, 5, 1), date(2028, 4, 1))), "engine.history.0.to", "not after"),
        (
            asked("four600", ran(500), engine={"renewed": {"piston": {"at": 900, "unit": "mi"}}}),
            "engine.renewed.piston.at",
            "at most what the engine has run: 500 miles",
        ),
        (asked(include=("piston",), leave=("piston",)), "leave", "not also in include"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_each_fault_names_its_field_and_what_is_allowed(request_: Request, field: str, allowed: str) -> None:
    assert allowed in found(request_)[field]


def test_history_running_backwards_is_refused() -> None:
    backwards = asked(
        "four600",
        dated(date(2026, 5, 1), date(2026, 6, 1)),
        dated(date(2025, 5, 1), date(2025, 6, 1)),
    )
    assert "history runs forward" in found(backwards)["engine.history.1.from"]


def test_an_empty_catalogue_says_what_to_do_first() -> None:
    empty = replace(shipped("four600"), components={}, operations={})
    assert faults(tired_four(), empty, SHOP) == (
        Fault("engine.type", "four600", "load a catalogue, or enter components and operations"),
    )


def test_a_part_that_must_be_renewed_and_has_no_price_is_named() -> None:
    catalogue = shipped("four600")
    parts = {key: part for key, part in catalogue.parts.items() if key[0] != "valve_spring"}
    fault = faults(tired_four(), replace(catalogue, parts=parts), SHOP)[0]
    assert (fault.field, fault.value) == ("catalogue.parts.valve_spring", "no price")


def raw(**changes: Any) -> dict[str, Any]:
    return {"engine": {"type": "four600"}, "planned": {"duty": "sprint"}, **changes}


def test_only_type_and_duty_are_needed() -> None:
    request = read_request(raw(), ON)
    assert request.on == ON
    assert request.engine.history is None


@pytest.mark.parametrize(
    ("change", "field", "value"),
    [
        ({"target": "1.2"}, "target", "1.2"),
        ({"target": "0"}, "target", "0"),
        ({"planned": {"duty": "sprint", "amount": "-5"}}, "planned.amount", "-5"),
        ({"planned": {"duty": "sprint", "amount": "1e9"}}, "planned.amount", "1e9"),
        ({"planned": {"duty": "sprint", "unit": "leagues"}}, "planned.unit", "leagues"),
        ({"checks": "always"}, "checks", "always"),
        ({"colour": "blue"}, "colour", "blue"),
        ({"engine": {}}, "engine.type", "missing"),
        ({"budget": "NaN"}, "budget", "NaN"),
        ({"engine": {"type": "a\x00b"}}, "engine.type", "a\\x00b"),
    ],
)
def test_a_request_that_is_not_as_it_must_be_names_field_and_value(
    change: dict[str, Any], field: str, value: str
) -> None:
    with pytest.raises(BadRequest) as caught:
        read_request(raw(**change), ON)
    assert (caught.value.faults[0].field, caught.value.faults[0].value) == (field, value)


def test_something_that_is_no_request_is_said_to_be_none() -> None:
    with pytest.raises(BadRequest) as caught:
        read_request(["engine"], ON)
    assert caught.value.faults[0].allowed == "an object with engine and planned"


def test_a_name_of_ten_thousand_letters_is_cut_in_the_message() -> None:
    with pytest.raises(BadRequest) as caught:
        read_request(raw(engine={"type": "x" * 10_000}), ON)
    assert "10000 characters" in caught.value.faults[0].value
    assert len(str(caught.value.faults[0])) < 400
