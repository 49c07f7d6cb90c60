"""What stands in one cell of a price list, and what can't."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, time
from decimal import Decimal

import pytest

from quotes.imports.faults import shown
from tests.imports.price_lists import csv_file, read, refused, ring, the_row, workbook


@pytest.mark.parametrize(
    ("written", "mark", "cost"),
    [
        ("12.5", ".", "12.5"),
        ("1,234.50", ".", "1234.5"),
        ("1'234.50", ".", "1234.5"),
        ("1\N{RIGHT SINGLE QUOTATION MARK}234.50 CHF", ".", "1234.5"),
        ("1\N{NARROW NO-BREAK SPACE}234,50 \N{EURO SIGN}", ",", "1234.5"),
        ("1\N{THIN SPACE}234\N{THIN SPACE}567,5", ",", "1234567.5"),
        ("1.234.567,5", ",", "1234567.5"),
        ("\N{EURO SIGN} 12,50", ",", "12.5"),
        ("US$ 12.50", ".", "12.5"),
        ("SEK 12,50", ",", "12.5"),
        ("12,50 kr.", ",", "12.5"),
        ("12,-", ",", "12"),
        ("12.\N{EN DASH}", ".", "12"),
        ("0.12345", ".", "0.1235"),
        (".5", ".", "0.5"),
    ],
)
def test_a_price_is_read_whatever_marks_it_bears(written: str, mark: str, cost: str) -> None:
    row = the_row(
        csv_file(ring(Net_price=written, List_price=""), separator="|"), decimal_mark=mark, currency=""
    )
    assert row.cost == Decimal(cost)


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("on request", "is no price"),
        ("12,50", "has another decimal mark than the list"),
        ("1,23.5", "is no price"),
        ("-3", "is below nought"),
        ("0.00", "is nought"),
        ("98765432.1", "is absurd"),
        ("12.50 \N{POUND SIGN}", "is in another currency than the list"),
        ("12.50 USD", "is in another currency than the list"),
        ("12 each", "is no price"),
        ("12\N{ZERO WIDTH SPACE}.50", "holds a character that can't be seen"),
        ("   ", "is blank"),
    ],
)
def test_a_price_that_is_none_is_refused_with_its_cell(written: str, reason: str) -> None:
    content = csv_file(ring(Net_price=written, List_price=""))
    column, value, why = refused(content, decimal_mark=".", currency="EUR")
    assert (column, value, why) == ("Net price", shown(written.strip()), reason)


def test_a_dollar_sign_stands_for_any_dollar() -> None:
    content = csv_file(ring(Net_price="$12.50", List_price=""))
    assert the_row(content, currency="CAD").cost == Decimal("12.5")
    assert refused(content, currency="EUR")[2] == "is in another currency than the list"


SPOILED = {
    date(2026, 2, 1): "was made a date by the spreadsheet",
    20417.5: "is a number with decimals, of which the spreadsheet may have lost noughts",
    1234567890123456789: "is a number of more than 15 digits, of which the spreadsheet has lost the last",
    time(3, 4): "is an error, a time or a yes/no",
    True: "is an error, a time or a yes/no",
    "2-Jan": "was made a date by the spreadsheet",
    "Mrz 26": "was made a date by the spreadsheet",
    "01.02.2026": "was made a date by the spreadsheet",
    "1.20E+06": "was made a number by the spreadsheet, which has lost what stood there",
    "KV\N{ZERO WIDTH SPACE}1": "holds a character that can't be seen",
    "--": "has no letter and no figure",
    "K" * 101: "has 101 characters",
}


def test_a_part_number_that_the_spreadsheet_spoiled_is_refused() -> None:
    found = read(workbook(*(ring(Part_number=cell) for cell in SPOILED)))
    assert [one.reason for one in found.rejected] == list(SPOILED.values())
    assert {one.column for one in found.rejected} == {"Part number"}
    assert not found.rows


KEPT = ["12E5", "MAR-10", "1-2", "26-01", "00123", "2 JAN", "KV 7 \N{MIDDLE DOT} 2", "lower-case 8"]


@pytest.mark.parametrize("written", [csv_file, workbook])
def test_a_part_number_kept_as_text_is_taken_as_it_stands(written: Callable[..., bytes]) -> None:
    found = read(written(*(ring(Part_number=number) for number in KEPT)))
    assert [row.number for row in found.rows] == KEPT


def test_a_number_that_is_one_is_taken_in_its_digits() -> None:
    assert the_row(workbook(ring(Part_number=20417))).number == "20417"


def test_a_number_guarded_against_the_spreadsheet_is_taken_without_its_guard() -> None:
    assert the_row(csv_file(ring(Part_number='="00123"'))).number == "00123"


def test_a_nul_in_a_cell_is_refused() -> None:
    content = csv_file(ring(Description="Ring"), *(ring(Part_number=f"A{place}") for place in range(99)))
    (one,) = read(content.replace(b"Ring,", b"R\x00ng,", 1)).rejected
    assert (one.line, one.column, one.reason) == (2, "Description", "holds a character that can't be seen")


GTINS = {
    "4006381333931": "4006381333931",
    4006381333931: "4006381333931",
    "4006381-333931": "4006381333931",
    "96385074": "96385074",
    36000291452: "036000291452",
    "-": "",
    "": "",
}


def test_a_gtin_is_kept_in_its_digits() -> None:
    found = read(workbook(*(ring(GTIN=cell) for cell in GTINS)))
    assert [row.gtin for row in found.rows] == list(GTINS.values())


@pytest.mark.parametrize(
    ("cell", "reason"),
    [
        ("4006381333932", "ends with a wrong check digit, 1 is due"),
        ("40063813339", "is no GTIN"),
        ("4.00638E+12", "was made a number by the spreadsheet, and lost its last digits"),
        ("none yet", "is no GTIN"),
    ],
)
def test_a_gtin_that_is_none_is_refused(cell: str, reason: str) -> None:
    assert refused(csv_file(ring(GTIN=cell))) == ("GTIN", cell, reason)


@pytest.mark.parametrize(
    ("unit", "pack", "cost", "said"),
    [
        ("St\N{LATIN SMALL LETTER U WITH DIAERESIS}ck", "", "12.5", ("each", 1)),
        ("per 100", "", "0.125", ("each", 1)),
        ("%", "", "0.125", ("each", 1)),
        ("100 pcs", "", "0.125", ("each", 1)),
        ("pack of 10", "", "1.25", ("each", 10)),
        ("VE", "10", "1.25", ("each", 10)),
        ("pair", "10", "12.5", ("pair", 10)),
        ("shell half", "4 pcs", "12.5", ("shell half", 4)),
    ],
)
def test_a_price_is_brought_to_one_unit(unit: str, pack: str, cost: str, said: tuple[str, int]) -> None:
    row = the_row(csv_file(ring(Unit=unit, Pack_size=pack, List_price="")))
    assert (row.cost, row.unit, row.pack) == (Decimal(cost), *said)


def test_a_list_may_price_by_the_pack_or_by_the_hundred_throughout() -> None:
    content = csv_file(ring(Pack_size=10, Unit=""))
    assert the_row(content, priced_by_pack=True).cost == Decimal("1.25")
    assert the_row(content, priced_for=100).cost == Decimal("0.125")


LEAD = {"5": 5, "2-3 weeks": 15, "1 Woche": 5, "2 months": 42, 7: 7, "ask": None, "": None}


def test_a_lead_time_is_counted_in_working_days() -> None:
    rows = [(f"KV-{place}", 12.5, said) for place, said in enumerate(LEAD)]
    found = read(workbook(*rows, heads=("Part number", "Net price", "Lead time")))
    assert [row.lead_days for row in found.rows] == list(LEAD.values())


def test_numbers_written_as_sums_are_refused_unless_some_have_decimals() -> None:
    found = read(csv_file(ring(Part_number="7.0"), ring(Part_number="KV-8")))
    assert [row.number for row in found.rows] == ["KV-8"]
    assert [one.reason for one in found.rejected] == [
        "may have been a whole number, which the spreadsheet wrote as a sum"
    ]
    sizes = read(csv_file(ring(Part_number="7.0"), ring(Part_number="7.25")))
    assert [row.number for row in sizes.rows] == ["7.0", "7.25"]
