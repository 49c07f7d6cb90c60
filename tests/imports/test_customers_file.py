"""Files that can and can't be read at all."""

import io
import zipfile
from datetime import date
from decimal import Decimal

import pytest
from openpyxl import Workbook

from quotes.calc.intake.given_customers import CustomerGiven, EngineGiven, SegmentGiven
from quotes.imports import cells
from quotes.imports import workbook as workbook_module
from quotes.imports.faults import FileFault
from tests.imports.customer_files import HEADINGS, csv_file, line, read, saved, with_part, workbook

INES = CustomerGiven(
    line=2,
    name="Ines Karrow",
    email="ines@karrow.example",
    engines=(
        EngineGiven(
            line=2,
            type_code="four600",
            number="H4-20417",
            history_known=True,
            segments=(
                SegmentGiven(
                    2, Decimal(4100), "mi", "sprint", "refresh", date(2026, 3, 1), date(2026, 10, 10)
                ),
            ),
        ),
    ),
)
SHORT = ("Customer", "E-mail", "Engine type", "Engine number", "Used", "Unit", "Duty", "From", "To")
TEXT = (
    "Ines Karrow",
    "ines@karrow.example",
    "four600",
    "H4-20417",
    "4100",
    "mi",
    "sprint",
    "2026-03-01",
    "2026-10-10",
)
SHEET_PART = "xl/worksheets/sheet1.xml"


def test_a_workbook_is_read() -> None:
    found = read(workbook(line()))
    assert (found.faults, found.customers, found.lines) == ((), (INES,), 1)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_csv_file_is_read_in_each_encoding_and_separator(encoding: str, separator: str) -> None:
    cells = ("Jörg Åberg", *TEXT[1:])
    found = read(csv_file(SHORT, cells, encoding=encoding, separator=separator))
    assert found.faults == ()
    assert found.customers[0].name == "Jörg Åberg"
    assert found.customers[0].engines == INES.engines


def test_workbook_and_csv_of_the_same_lines_say_the_same() -> None:
    assert read(csv_file(SHORT, TEXT)).customers == read(workbook(line())).customers


def test_a_cell_over_two_lines_does_not_shift_the_line_numbers() -> None:
    content = b'Customer,Address\n"Ines Karrow","4 Tallow Yard\nNorth"\n=bad,x\n'
    found = read(content)
    assert found.customers[0].address == "4 Tallow Yard\nNorth"
    assert [(fault.line, fault.column) for fault in found.faults] == [(4, "Customer")]


def test_blank_lines_and_a_late_heading_keep_true_line_numbers() -> None:
    book = Workbook()
    page = book.active
    assert page is not None
    page.title = "customers"
    page["B3"] = "Customer"
    page["B6"] = "=bad"
    page["B6"].data_type = "s"
    found = read(saved(book))
    assert [(fault.line, fault.column, fault.sheet) for fault in found.faults] == [
        (6, "Customer", "customers")
    ]


@pytest.mark.parametrize("content", [b"", b"  \n \n", b"\xef\xbb\xbf"])
def test_an_empty_file_is_refused(content: bytes) -> None:
    with pytest.raises(FileFault, match=r"empty|nothing in the sheet"):
        read(content)


def test_an_empty_workbook_is_refused() -> None:
    with pytest.raises(FileFault, match="nothing in the sheet"):
        read(saved(Workbook()))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"%PDF-1.7\n\x00\x01\x02\x00\x00\x00binary", "no text"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "old XLS form"),
        ("Customer\nInes".encode("utf-16"), "no text"),
        (b"Customer\n\x81\x8d\xff", "neither in UTF-8"),
        (b"PK\x03\x04 and then nothing of the kind", "damaged or locked"),
    ],
)
def test_a_file_that_is_no_workbook_is_refused(content: bytes, said: str) -> None:
    with pytest.raises(FileFault, match=said):
        read(content)


def test_another_packed_file_is_refused() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as package:
        package.writestr("letter.txt", "Dear workshop")
    with pytest.raises(FileFault, match="no XLSX workbook"):
        read(held.getvalue())


def test_a_file_too_large_is_refused_before_it_is_read() -> None:
    with pytest.raises(FileFault, match="at most 2,000,000"):
        read(b"Customer\n" + b"x" * cells.MOST_BYTES)


def test_a_packed_file_that_unpacks_to_too_much_is_refused() -> None:
    blank = b" " * (workbook_module.MOST_UNPACKED + 1)
    content = with_part(workbook(line()), "docProps/app.xml", lambda part: part + blank)
    assert len(content) < cells.MOST_BYTES
    with pytest.raises(FileFault, match="unpacks to too much"):
        read(content)


def test_a_lone_cell_in_the_far_corner_is_refused_and_does_not_end_the_process() -> None:
    far = b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'
    content = with_part(workbook(line()), SHEET_PART, lambda part: part.replace(b"</sheetData>", far))
    with pytest.raises(FileFault, match="far away"):
        read(content)


def test_one_long_text_in_every_cell_is_refused() -> None:
    book = Workbook()
    page = book.active
    assert page is not None
    page.append(list(HEADINGS))
    for _ in range(1500):
        page.append(["y" * 9000])
    with pytest.raises(FileFault, match="too much text"):
        read(saved(book))


def test_too_many_lines_are_refused_in_both_kinds_of_file() -> None:
    with pytest.raises(FileFault, match="5,000 lines"):
        read(workbook(*[["A"]] * (cells.MOST_ROWS + 1), headings=["Customer"]))
    with pytest.raises(FileFault, match="5,000 lines"):
        read(csv_file(["Customer"], *[["A"]] * (cells.MOST_ROWS + 1)))


def test_an_open_quotation_mark_is_named_by_its_line() -> None:
    with pytest.raises(FileFault, match="Line 3"):
        read(b'Customer\nInes\n"Dov\n')


def test_the_sheet_is_found_by_name_among_others() -> None:
    book = Workbook()
    page = book.active
    assert page is not None
    page.title = "Notes"
    second = book.create_sheet("CUSTOMERS")
    second.append(["Customer"])
    second.append(["Ines Karrow"])
    assert [one.name for one in read(saved(book)).customers] == ["Ines Karrow"]


def test_a_workbook_without_that_sheet_names_those_it_has() -> None:
    book = Workbook()
    book.create_sheet("Prices")
    with pytest.raises(FileFault, match="only: Sheet, Prices"):
        read(saved(book))


@pytest.mark.parametrize(
    ("headings", "said"),
    [
        (("Customer", "Shoe size"), "“Shoe size” is not known"),
        (("Customer", "E-mail", "EMAIL"), "“E-mail” stands there twice"),
        (("E-mail",), "“Customer” is missing"),
    ],
)
def test_wrong_headings_are_named_with_what_is_allowed(headings: tuple[str, ...], said: str) -> None:
    with pytest.raises(FileFault, match=said) as refused:
        read(workbook(["x"], headings=headings))
    assert "Allowed are Customer, Address" in str(refused.value)


def test_headings_are_known_in_any_order_and_case() -> None:
    found = read(csv_file(["ENGINE-NUMBER", "customer", "engine type"], ["H4-1", "Ines", "600 Inline Four"]))
    assert found.customers[0].engines[0].key == ("four600", "h41")
