"""A file of suppliers' bills: every fault with its place, all of it entered or nothing, and none twice."""

from __future__ import annotations

import io
from collections.abc import Sequence
from datetime import date
from decimal import Decimal

import pytest
from openpyxl import Workbook as Book

from quotes.actions.books.bill_file import enter_bills
from quotes.actions.books.refused import BillEnteredAlready
from quotes.imports.bill_columns import COLUMNS
from quotes.imports.check_bills import CheckedBills, check_bills
from quotes.imports.faults import FileFault
from quotes.models import Acceptance, JournalLine, SupplierBill
from tests.books import cast
from tests.cast import books
from tests.quotes.cast import NOW, ON

HEAD = ",".join(f'"{column.heading}"' for column in COLUMNS)
pytestmark = pytest.mark.django_db


@pytest.fixture
def build(db: None) -> Acceptance:
    """An accepted build, in a workshop that counts in euro and cents."""
    return cast.build()


def row(**change: str) -> str:
    """One line of a file: parts for 412.00 and 82.40 of tax, of Fenwright Parts."""
    cells = {
        "supplier": "Fenwright Parts",
        "number": "8841",
        "on": "2026-11-20",
        "due_on": "2026-12-20",
        "kind": "parts",
        "description": "Pistons",
        "build": "",
        "net": "412.00",
        "tax": "82.40",
    }
    return ",".join(f'"{value}"' for value in (cells | change).values())


def file(*rows: str, encoding: str = "utf-8") -> bytes:
    return "\n".join([HEAD, *rows, ""]).encode(encoding)


def checked(*rows: str) -> CheckedBills:
    return check_bills(file(*rows), ON)


def enter(found: CheckedBills) -> list[SupplierBill]:
    assert found.faults == ()
    return enter_bills(bills=found.file.bills, builds=found.builds, by=books(), now=NOW)


def said(*rows: str) -> Sequence[tuple[int, str, str, str]]:
    return [(one.line, one.column, one.value, one.reason) for one in checked(*rows).faults]


def test_lines_of_one_number_become_one_bill_for_its_build(build: Acceptance) -> None:
    number = str(build.quote.number)
    found = checked(row(build=number), row(kind="machine work", net="100", tax="20", build=number))

    (bill,) = enter(found)

    assert (bill.net, bill.tax, bill.gross) == (Decimal("512.00"), Decimal("102.40"), Decimal("614.40"))
    assert [line.build for line in bill.lines.all()] == [build, build]
    in_progress = JournalLine.objects.filter(role="work_in_progress")
    assert sum(line.debit for line in in_progress) == Decimal("512.00")
    assert JournalLine.objects.get(role="tax_on_purchases").debit == Decimal("102.40")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252"])
def test_a_csv_file_in_each_known_encoding_is_read(build: Acceptance, encoding: str) -> None:
    found = check_bills(file(row(supplier="Märten & Söhne"), encoding=encoding), ON)

    assert found.file.bills[0].supplier == "Märten & Söhne"


def test_a_workbook_gives_the_same_bills_as_the_csv_file(build: Acceptance) -> None:
    sheet = (book := Book()).worksheets[0]
    sheet.title = "Bills"
    sheet.append([column.heading for column in COLUMNS])
    sheet.append(
        ["Fenwright Parts", 8841, date(2026, 11, 20), date(2026, 12, 20), "parts", "Pistons", None, 412, 82.4]
    )
    out = io.BytesIO()
    book.save(out)

    from_workbook, from_csv = check_bills(out.getvalue(), ON), checked(row())

    assert from_workbook.faults == ()
    assert from_workbook.file.bills == from_csv.file.bills


def test_taken_in_twice_each_bill_is_entered_once(build: Acceptance) -> None:
    first = checked(row())
    enter(first)

    assert said(row()) == [(2, "Number", "8841", "is in the books as S-2026-0001")]
    with pytest.raises(BillEnteredAlready):
        enter_bills(bills=first.file.bills, builds={}, by=books(), now=NOW)
    assert SupplierBill.objects.count() == 1


def test_a_bill_that_is_refused_enters_none_of_the_file(build: Acceptance) -> None:
    found = checked(row(number="1"), row(number="2"))
    enter(checked(row(number="2")))

    with pytest.raises(BillEnteredAlready):
        enter_bills(bills=found.file.bills, builds={}, by=books(), now=NOW)

    assert [bill.supplier_number for bill in SupplierBill.objects.all()] == ["2"]
    enter(checked(row(number="3")))
    assert sorted(SupplierBill.objects.values_list("number", flat=True)) == ["S-2026-0001", "S-2026-0002"]


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"supplier": ""}, ("Supplier", "", "is blank")),
        ({"number": ""}, ("Number", "", "is blank")),
        ({"on": "20.11.2026"}, ("Date", "20.11.2026", "is no date")),
        ({"on": "2026-02-30"}, ("Date", "2026-02-30", "is no day of the calendar")),
        ({"on": "2026-11-26"}, ("Date", "2026-11-26", "is still to come")),
        ({"due_on": "2026-11-01"}, ("To pay by", "2026-11-01", "is before the bill's date")),
        ({"kind": "horses"}, ("What for", "horses", "is not known")),
        ({"net": "four"}, ("Before tax", "four", "is no sum")),
        ({"net": "412.005"}, ("Before tax", "412.005", "is finer than a coin")),
        ({"tax": "82.405"}, ("Tax", "82.405", "is finer than a coin")),
        ({"tax": "-82.40"}, ("Tax", "-82.40", "can't be the tax of this bill")),
        ({"tax": "500"}, ("Tax", "500", "can't be the tax of this bill")),
        ({"build": "Q-2026-0999"}, ("Build", "Q-2026-0999", "is not known")),
    ],
)
def test_each_fault_is_said_with_line_column_and_value(
    build: Acceptance, change: dict[str, str], fault: tuple[str, str, str]
) -> None:
    assert said(row(number="1"), row(**change)) == [(3, *fault)]


def test_overheads_and_stock_are_for_no_build(build: Acceptance) -> None:
    number = str(build.quote.number)

    assert said(row(kind="overheads", build=number)) == [(2, "Build", number, "can't stand beside overheads")]


def test_days_that_differ_within_one_bill_are_a_fault(build: Acceptance) -> None:
    assert said(row(), row(on="2026-11-21")) == [(3, "Date", "2026-11-21", "differs from line 2")]


def test_a_missing_column_is_named() -> None:
    with pytest.raises(FileFault, match="“Before tax” is missing"):
        check_bills(b"Supplier,Number,Date,What for,In words\n", ON)


def test_a_suppliers_credit_has_sums_below_nought(build: Acceptance) -> None:
    (bill,) = enter(checked(row(net="-50.00", tax="-10.00")))

    assert (bill.net, bill.gross) == (Decimal("-50.00"), Decimal("-60.00"))
