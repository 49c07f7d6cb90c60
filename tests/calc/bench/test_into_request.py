"""A quote's request with what the strip-down showed in it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from quotes.calc.ask.fault import Fault
from quotes.calc.ask.request import Edits, LineChange, MeasuredPower, Observed, OwnLine, Reading
from quotes.calc.bench.teardown.into_request import Shown, after_the_yes, as_accepted, named, with_teardown
from quotes.calc.sheet.line_values import Reason
from tests.calc.asked import tired_four
from tests.sample_sheet import sample_comparison


def read(value: str = "0.25", **change: Any) -> Reading:
    fields: dict[str, Any] = {
        "component": "piston",
        "quantity": "skirt clearance",
        "value": Decimal(value),
        "unit": "mm",
        "standard": Decimal("0.02"),
        "limit": Decimal("0.10"),
        "bad_when": "above",
        "place": "cylinder 2",
    }
    return Reading(**(fields | change))


def shown(*standing: Reading | Observed, entered: tuple[Reading | Observed, ...] = ()) -> Shown:
    readings = tuple(one for one in standing if isinstance(one, Reading))
    findings = tuple(one for one in standing if isinstance(one, Observed))
    return Shown(
        readings,
        findings,
        readings + tuple(one for one in entered if isinstance(one, Reading)),
        findings + tuple(one for one in entered if isinstance(one, Observed)),
    )


POWER = MeasuredPower(figure=Decimal("84.5"), unit="kW", on=date(2027, 1, 20))
SEIZED = Observed(id="piston_seizure", component="piston", place="cylinder 2")


def test_readings_and_findings_go_in_and_the_engine_is_stripped() -> None:
    after = with_teardown(tired_four(), shown(read(), SEIZED))
    assert (after.readings, after.findings, after.stripped) == ((read(),), (SEIZED,), True)


def test_known_history_and_every_edit_stay() -> None:
    edits = Edits(
        include=("valve_spring",),
        own_lines=(OwnLine(description="Loom repaired", quantity=Decimal(1), unit_price=Decimal(40)),),
        lines={"part:piston": LineChange(quantity=Decimal(2), note="Two are here")},
    )
    before = tired_four(edits={"mild": edits})
    after = with_teardown(before, shown(read()))
    assert (after.engine, after.edits, after.planned) == (before.engine, before.edits, before.planned)


def test_the_same_once_more_is_no_change() -> None:
    once = with_teardown(tired_four(), shown(read(), SEIZED))
    assert with_teardown(once, shown(read(), SEIZED)) == once


def test_what_was_typed_by_hand_gives_way_to_the_same_seen_on_the_bench() -> None:
    before = tired_four(readings=(read("0.30", place=""),), findings=("piston_seizure",))
    after = with_teardown(before, shown(read("0.12"), SEIZED))
    assert (after.readings, after.findings) == ((read("0.12"),), (SEIZED,))


def test_what_was_typed_by_hand_and_not_seen_on_the_bench_stays() -> None:
    before = tired_four(readings=(read(component="crankshaft"),), findings=("metal_in_filter",))
    after = with_teardown(before, shown(read()))
    assert after.readings == (read(component="crankshaft"), read())
    assert after.findings == ("metal_in_filter",)


def test_what_the_bench_took_back_goes_out_again() -> None:
    before = with_teardown(tired_four(), shown(read(), SEIZED))
    after = with_teardown(before, shown(entered=(read(), SEIZED)))
    assert (after.readings, after.findings) == ((), ())


def test_a_fault_names_the_reading_and_its_place_instead_of_a_number() -> None:
    asked = tired_four(readings=(read(),), findings=(SEIZED,))
    faults = [Fault("readings.0.limit", "0.1", "a limit"), Fault("findings.0", "piston_seizure", "one of")]
    assert [named(fault, asked).field for fault in faults] == [
        "reading skirt clearance, cylinder 2, limit",
        "finding piston seizure, cylinder 2",
    ]
    assert named(Fault("engine.type", "x", "y"), asked) == Fault("engine.type", "x", "y")


def test_a_yes_is_asked_again_for_its_one_option_with_its_extras() -> None:
    before = tired_four(edits={"mild": Edits(include=("piston",), leave=("cam_chain", "oil_pump"))})
    asked = as_accepted(before, "mild", ("cam_chain",))
    assert (asked.tiers, asked.stripped) == (("mild",), True)
    assert asked.edits["mild"].include == ("piston", "cam_chain")
    assert asked.edits["mild"].leave == ("oil_pump",)


def reason(code: str, *chain: str) -> Reason:
    return Reason(component=code, name=code, code="due", sentence="Due.", state="must", chain=chain)


def test_what_was_accepted_stays_in_unless_it_was_measured_within_limits() -> None:
    renewed = {
        "piston": reason("piston"),
        "piston_ring": reason("piston_ring", "piston", "piston ring"),
        "cam_chain": reason("cam_chain"),
    }
    option = sample_comparison().option("mild").model_copy(update={"renewed": renewed})
    sound = after_the_yes(tired_four(), option, ("oil_pump",), shown(read("0.05")))
    assert sound.edits["mild"].include == ("cam_chain", "oil_pump")
    worn = after_the_yes(tired_four(), option, (), shown(read("0.25")))
    assert worn.edits["mild"].include == ("piston", "cam_chain")


def test_a_power_that_was_measured_on_the_way_in_goes_in_and_an_earlier_one_stays_without() -> None:
    measured = replace(shown(), measured_power=POWER)
    once = with_teardown(tired_four(), measured)
    assert once.engine.measured_power == POWER
    assert with_teardown(once, shown()).engine.measured_power == POWER


def test_a_power_that_was_measured_is_no_matter_for_a_proposal_after_the_yes() -> None:
    option = sample_comparison().option("mild")
    measured = replace(shown(read()), measured_power=POWER)
    assert after_the_yes(tired_four(), option, (), measured) == after_the_yes(
        tired_four(), option, (), shown(read())
    )
