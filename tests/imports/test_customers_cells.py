"""Each trap of a cell, and what is said about it."""

from datetime import date, datetime
from decimal import Decimal

import pytest

from quotes.calc.intake.given_customers import EngineGiven
from tests.imports.customer_files import (
    ON,
    as_file,
    csv_file,
    customer_only,
    fault_of,
    line,
    read,
    with_part,
    workbook,
)

SHEET_PART = "xl/worksheets/sheet1.xml"


def engine_of(*cells: object) -> EngineGiven:
    found = read(as_file(list(cells)))
    assert found.faults == ()
    return found.customers[0].engines[0]


@pytest.mark.parametrize(
    ("given", "kept"), [(20417, "20417"), (20417.0, "20417"), ("0020417", "0020417"), ("20417", "20417")]
)
def test_an_engine_number_that_is_a_number_keeps_its_figures(given: object, kept: str) -> None:
    assert engine_of(*line(Engine_number=given)).number == kept


def test_a_number_too_long_for_a_spreadsheet_is_a_fault() -> None:
    fault = fault_of(line(Engine_number=12345678901234567))
    assert (fault.line, fault.column, "lost the last" in fault.reason) == (2, "Engine number", True)


def test_an_engine_number_made_a_date_is_a_fault() -> None:
    fault = fault_of(line(Engine_number=datetime.fromisoformat("2026-01-02 00:00")))
    assert "made a date" in fault.reason
    assert "as text" in fault.allowed


@pytest.mark.parametrize("value", [True, "=1+1", "=NA()"])
def test_a_formula_without_a_result_is_no_blank_cell(value: object) -> None:
    faults = read(workbook(line(Address=value))).faults
    assert [(fault.column, "without a result" in fault.reason) for fault in faults] == [("Address", True)]


def test_a_formula_with_a_result_is_its_result() -> None:
    typed = b'<c r="A2" t="str"><f>A9</f><v>Dov Marlish</v></c>'
    content = workbook(customer_only("REPLACED"))
    written = b'<c r="A2" t="inlineStr"><is><t>REPLACED</t></is></c>'
    found = read(with_part(content, SHEET_PART, lambda part: part.replace(written, typed)))
    assert [one.name for one in found.customers] == ["Dov Marlish"]


@pytest.mark.parametrize("value", ["=HYPERLINK(1)", "@SUM(A1)", "-2+3", "+cmd"])
def test_a_text_that_a_spreadsheet_would_run_is_refused(value: str) -> None:
    found = read(csv_file(["Customer"], [value]))
    assert [(fault.line, fault.column, fault.value) for fault in found.faults] == [(2, "Customer", value)]
    assert "runs as a formula" in found.faults[0].reason


def test_a_telephone_may_begin_with_plus_and_may_be_a_number() -> None:
    assert read(csv_file(["Customer", "Telephone"], ["Ines", "+1 555 0104"])).faults == ()
    assert read(workbook(customer_only("Ines", Telephone=5550104))).customers[0].telephone == "5550104"


@pytest.mark.parametrize("value", ["Ines\x00Karrow", "Ines\x07"])
def test_an_unseen_character_is_refused_in_a_csv_file(value: str) -> None:
    fault = read(csv_file(["Customer"], [value + " and a name long enough to be text" * 4])).faults[0]
    assert "can't be seen" in fault.reason
    assert "\x00" not in fault.value


def test_an_unseen_character_is_refused_in_a_workbook() -> None:
    fault = read(workbook(customer_only("Ines _x0000_ Karrow"))).faults[0]
    assert "can't be seen" in fault.reason


def test_a_hard_space_is_a_space_and_a_broken_line_is_a_fault_in_a_name() -> None:
    assert read(csv_file(["Customer"], ["Ines\u00a0Karrow"])).customers[0].name == "Ines Karrow"
    assert "two lines" in fault_of(customer_only("Ines\nKarrow")).reason


def test_a_name_of_ten_thousand_characters_is_refused_and_not_shown_whole() -> None:
    fault = fault_of(customer_only("x" * 10_000))
    assert (fault.reason, fault.allowed) == ("has 10,000 characters", "at most 200")
    assert len(fault.value) < 100


@pytest.mark.parametrize(
    ("heading", "value", "reason"),
    [
        ("E_mail", "ines at karrow", "is no e-mail address"),
        ("E_mail", "a@b@c.example", "is no e-mail address"),
        ("Telephone", "ring me", "is no telephone number"),
        ("Country", "USA", "is no country code"),
        ("Engine_type", "700 triple", "is not known"),
        ("Delivered", "by post", "is not known"),
        ("Duty", "speedway", "is not known"),
        ("Unit", "furlongs", "is not known"),
        ("Tune", "wild", "is not known"),
        ("Used", "4,100", "is no number"),
        ("Used", "-5", "is no number"),
        ("Used", -5, "is no use"),
        ("Used", 0, "is no use"),
        ("Used", 2_000_000, "is no use"),
        ("Used", 1e300, "is no use"),
        ("Used", "1e3", "is no number"),
        ("Used", 37.123, "more than 2 decimals"),
        ("From", "03/04/2026", "is no date"),
        ("From", 45_000, "is no date"),
        ("From", "2026-02-30", "is no day of the calendar"),
        ("From", date(1902, 1, 1), "too far back or ahead"),
        ("To", date(2027, 1, 5), "too far back or ahead"),
    ],
)
def test_each_column_says_what_it_can_not_take(heading: str, value: object, reason: str) -> None:
    fault = fault_of(line(**{heading: value}))
    assert fault.line == 2
    assert fault.column.replace(" ", "_").replace("-", "_") == heading
    assert reason in fault.reason
    assert fault.allowed


def test_a_choice_may_be_given_by_name_and_its_fault_lists_all() -> None:
    assert engine_of(*line(Engine_type="600 Inline Four", Duty="Sprint road race")).type_code == "four600"
    assert fault_of(line(Duty="speedway")).allowed == "one of sprint (sprint road race), motocross"


def test_noise_in_the_last_digits_of_a_number_is_not_held_against_it() -> None:
    assert engine_of(*line(Used=0.1 + 0.2)).segments[0].amount == Decimal("0.30")


def test_today_is_a_day_that_may_be_given() -> None:
    assert engine_of(*line(To=ON)).segments[0].end == ON


@pytest.mark.parametrize(
    ("changes", "column"),
    [
        ({"Customer": None}, "Customer"),
        ({"Engine_number": None}, "Engine number"),
        ({"Engine_type": None}, "Engine type"),
        ({"Used": None}, "Used"),
        ({"Unit": None}, "Unit"),
        ({"Duty": None}, "Duty"),
    ],
)
def test_a_line_that_begins_a_thing_must_finish_it(changes: dict[str, object], column: str) -> None:
    fault = fault_of(line(**changes))
    assert (fault.line, fault.column) == (2, column)
    assert "needs it" in fault.reason


def test_service_that_ends_before_it_begins_is_a_fault() -> None:
    assert "before the day it began" in fault_of(line(To=date(2026, 2, 1))).reason


def test_a_unit_that_the_duty_can_not_carry_is_a_fault() -> None:
    fault = fault_of(line(Duty="motocross", Unit="mi"))
    assert (fault.column, fault.value, fault.allowed) == ("Unit", "miles", "hours")


def test_a_new_engine_has_no_service_on_its_line() -> None:
    assert fault_of(line(History="new")).column == "History"


def test_every_fault_of_a_file_is_reported_at_once() -> None:
    found = read(as_file(line(E_mail="x"), line(), line(Used="many", Duty="speedway")))
    assert [(fault.line, fault.column) for fault in found.faults] == [(2, "E-mail"), (4, "Used"), (4, "Duty")]
    assert [one.name for one in found.customers] == ["Ines Karrow"]
