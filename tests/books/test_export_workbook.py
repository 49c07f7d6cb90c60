"""The workbook and the flat file, read back by others: what they add up to is what the invoices say."""

from __future__ import annotations

import csv
import io
import shutil
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook

from quotes.actions.books.batches import finish_batch, start_batch
from quotes.calc.sheet.issued_values import Party
from quotes.models import ExportBatch, Invoice
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.books.read_back import Rows, saved_again, sheets, total
from tests.cast import books
from tests.quotes import cast

# Batches, their entries and their controls are tested on both; here the files that come of them are read.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]
NAMES = [
    "Sales journal",
    "Lines",
    "Tax summary",
    "Payments",
    "Journal",
    "Open items",
    "Deposits held",
    "Control",
]


@pytest.fixture(autouse=True)
def workshop(db: None) -> None:
    cast.workshop()


def exported() -> ExportBatch:
    return finish_batch(batch_id=start_batch(by=books(), now=NOW).pk)


def content(batch: ExportBatch) -> bytes:
    assert batch.workbook is not None, batch.failed_because
    return bytes(batch.workbook.content)


def flat(batch: ExportBatch) -> list[dict[str, str]]:
    assert batch.csv is not None
    text = bytes(batch.csv.content).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def a_quarter() -> None:
    """Five invoices, one of them overdue, a credit note, payments and a refund."""
    for number in range(1, 6):
        day = ON - timedelta(days=20 * number)
        posted.issued(
            f"I-2026-000{number}", ("0.37", f"{number}19.99"), issued_on=day, due_on=day + timedelta(days=14)
        )
    first = Invoice.objects.get(number="I-2026-0001")
    posted.credited("C-2026-0001", ("0.37",), of=first)
    posted.paid("R-2026-0001", "126.79", method="card", reference="+1 of I-2026-0001")
    posted.paid("R-2026-0002", "10.00", kind="refund", method="cash")


def totals_are_those_of_the_invoices(found: dict[str, Rows]) -> None:
    assert list(found) == NAMES
    sign = {"credit_note": -1}
    rows = [(sign.get(row.kind, 1), row) for row in Invoice.objects.all()]
    net, tax, gross = (sum(way * getattr(row, key) for way, row in rows) for key in ("net", "tax", "gross"))
    assert total(found["Sales journal"], "Net") == total(found["Lines"], "Net") == net == Decimal("1601.43")
    assert total(found["Sales journal"], "Tax") == total(found["Tax summary"], "Tax") == tax
    assert total(found["Sales journal"], "Gross") == gross
    assert total(found["Journal"], "Debit") == total(found["Journal"], "Credit")
    assert total(found["Payments"], "Amount") == Decimal("116.79")
    assert total(found["Open items"], "Open") == gross - Decimal("116.79")


def test_calamine_reads_what_the_invoices_add_up_to() -> None:
    a_quarter()

    totals_are_those_of_the_invoices(sheets(content(exported())))


@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
@pytest.mark.one_database  # the same workbook is read on both by calamine
def test_libreoffice_saves_what_the_invoices_add_up_to(tmp_path: Path) -> None:
    a_quarter()

    totals_are_those_of_the_invoices(sheets(saved_again(content(exported()), tmp_path)))


def test_dates_are_dates_and_sums_are_numbers_of_the_currency() -> None:
    posted.issued("I-2026-0001", ("100.00",))

    row = sheets(content(exported()))["Sales journal"][0]

    assert (row["Issued"], row["To pay by"]) == (ON, date(2026, 12, 9))
    assert (row["Net"], row["Tax"], row["Gross"]) == (100.0, 6.0, 106.0)
    cell = load_workbook(io.BytesIO(content(ExportBatch.objects.get())))["Sales journal"]["K2"]
    assert (cell.data_type, cell.number_format) == ("n", "#,##0.00")


def test_a_currency_without_decimals_is_written_without() -> None:
    from quotes.models import Workshop

    Workshop.objects.update(currency="JPY")
    posted.paid("R-2026-0001", "1200", currency="JPY")

    batch = exported()

    cell = load_workbook(io.BytesIO(content(batch)))["Payments"]["G2"]
    assert (cell.value, cell.number_format) == (1200, "#,##0")
    assert [row["Debit"] for row in flat(batch)] == ["1200", "0"]


@pytest.mark.parametrize("begins", ["=", "+", "-", "@", "\t"])
def test_a_text_that_a_spreadsheet_would_run_stays_text(begins: str) -> None:
    poison = f"{begins}HYPERLINK(1)"
    posted.issued("I-2026-0001", lines=(posted.line(1, "100.00", poison),))
    posted.paid("R-2026-0001", "1.00", reference=poison)

    book = load_workbook(io.BytesIO(content(exported())))

    for cell in (book["Lines"]["E2"], book["Payments"]["I2"]):
        assert (cell.value, cell.data_type, cell.quotePrefix) == (poison, "s", True)


def test_the_flat_file_puts_a_mark_before_a_text_that_would_be_run() -> None:
    posted.issued("I-2026-0001", buyer=Party(name="=cmd|calc"))

    assert {row["Party"] for row in flat(exported())} == {"'=cmd|calc"}


def test_a_character_that_no_workbook_can_hold_is_left_out() -> None:
    posted.issued("I-2026-0001", lines=(posted.line(1, "100.00", "Hone\x0b six bores"),))

    assert sheets(content(exported()))["Lines"][0]["Item"] == "Hone six bores"


def test_the_flat_file_holds_each_side_of_each_entry() -> None:
    posted.issued("I-2026-0001", ("100.00",))

    rows = flat(exported())

    assert [(row["Account"], row["Debit"], row["Credit"]) for row in rows] == [
        ("1100", "106.00", "0.00"),
        ("4100", "0.00", "100.00"),
        ("2200", "0.00", "6.00"),
    ]
    assert {(row["Batch"], row["Day"], row["Document"]) for row in rows} == {
        ("E-2026-0001", "2026-11-25", "I-2026-0001")
    }


def test_tax_is_added_up_by_rate_and_component() -> None:
    first = posted.issued("I-2026-0001", ("100.00",))
    posted.issued("I-2026-0002", ("50.00",))
    posted.credited("C-2026-0001", ("100.00",), of=first)

    rows = sheets(content(exported()))["Tax summary"]

    assert [(row["Component"], row["Taxable"], row["Tax"], row["Documents"]) for row in rows] == [
        ("County", 50.0, 0.01, 3.0),
        ("State", 50.0, 2.99, 3.0),
    ]


def test_the_control_sheet_says_that_all_agrees() -> None:
    a_quarter()

    rows = [row for row in sheets(content(exported()))["Control"] if row["Word"]]

    assert len(rows) == 15
    assert {(row["Word"], row["Apart by"]) for row in rows} == {("agrees", 0.0)}


def test_a_count_among_the_controls_is_no_sum_of_money() -> None:
    posted.paid("R-2026-0001", "20.00")

    sheet = load_workbook(io.BytesIO(content(exported())))["Control"]

    set_as = {row[0].value: row[2].number_format for row in sheet.iter_rows(min_row=8)}
    assert set_as["Lines of the journal"] == "0"
    assert set_as["Payments"] == "#,##0.00"


def test_open_items_are_those_of_the_last_day_of_the_period() -> None:
    """An invoice of October, paid in November: at the end of October it was open."""
    october = date(2026, 10, 5)
    posted.issued("I-2026-0001", ("100.00",), issued_on=october, due_on=october)
    posted.paid("R-2026-0001", "106.00")
    batch = start_batch(by=books(), now=NOW, last=date(2026, 10, 31))

    rows = sheets(content(finish_batch(batch_id=batch.pk)))["Open items"]

    assert [(row["Number"], row["Open"], row["Days late"]) for row in rows] == [("I-2026-0001", 106.0, 26.0)]
