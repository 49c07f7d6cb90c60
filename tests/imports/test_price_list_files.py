"""Price lists as whole files: what is suggested for them, and which are refused with what is allowed."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Callable
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.calc.price_list.reading import Reading, ReadList
from quotes.forms.price_list_file import chosen_so_far
from quotes.imports.faults import FileFault
from quotes.imports.price_list import limits
from quotes.imports.price_list import workbook as workbooks
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.refused_file import refused_file
from quotes.imports.price_list.source import opened
from quotes.imports.price_list.suggest import look, suggest
from tests.imports.price_lists import HEADS, csv_file, read, ring, workbook


def test_heads_are_found_below_a_title_and_over_two_lines() -> None:
    content = workbook(
        ["KV-1", "Ring", 12.5, 16.9],
        heads=["", "", "net", "list"],
        above=[["Spring prices"], [], ["Part number", "Description", "Price", ""]],
    )
    reading = suggest(content, "list.xlsx").reading
    assert (reading.head_line, reading.head_lines) == (3, 2)
    assert reading.columns == {"number": 0, "name": 1, "cost": 2, "list_price": 3}
    assert reading.heads["list_price"] == "Price list"


def test_columns_without_heads_are_found_by_what_stands_in_them() -> None:
    rows = [[f"KV-{place}", "Ring set", place % 3 + 1, f"{place + 1}.50"] for place in range(20)]
    content = csv_file(*rows[1:], heads=rows[0], charset="utf-8-sig")
    reading = suggest(content, "list.csv").reading
    assert (reading.head_line, reading.columns) == (0, {"number": 0, "cost": 3})
    assert read_price_list(content, "list.csv", reading).rows[0].number == "KV-0"


def test_a_currency_that_somebody_took_out_stays_out() -> None:
    content = csv_file(ring(Net_price="12.50 EUR"))
    suggested = suggest(content, "list.csv").reading
    assert suggested.currency == "EUR"
    assert look(content, suggested.model_copy(update={"currency": ""})).reading.currency == ""


def test_a_file_may_tell_its_separator_itself() -> None:
    content = b"sep=|\n" + csv_file(ring(), separator="|")
    assert suggest(content, "list.csv").reading.head_line == 2
    assert len(read(content).rows) == 1


def test_a_head_is_kept_without_what_cannot_be_seen() -> None:
    rows = [[f"KV-{place}", 5] for place in range(40)]
    content = csv_file(*rows, heads=["Part\x00 no\u200b", "Net price"])
    assert suggest(content, "list.csv").reading.heads["number"] == "Part no"


def test_a_reading_of_another_release_is_no_reading() -> None:
    assert Reading.kept({"tongue": "old"}) is None
    assert Reading.kept(Reading(priced_for=100).model_dump(mode="json")) == Reading(priced_for=100)


def test_commas_within_names_do_not_part_columns() -> None:
    rows = [
        f"KV-{place};{'Ring, bolt, nut, pin, cap, key' if place % 3 else 'Ring'};5" for place in range(10)
    ]
    content = "\n".join(["Part number;Description;Net price", *rows]).encode()
    assert suggest(content, "list.csv").reading.separator == ";"


def test_the_last_reading_of_a_supplier_is_found_again_where_columns_moved() -> None:
    last = suggest(csv_file(ring()), "spring.csv").reading.model_copy(update={"priced_for": 100})
    kept = Reading.model_validate_json(last.model_dump_json())
    moved = csv_file(["new", *ring()], heads=["Colour", *HEADS], separator=";", charset="utf-16")
    found = suggest(moved, "summer.csv", kept)
    assert found.known
    assert found.reading.columns == {column: place + 1 for column, place in last.columns.items()}
    assert (found.reading.priced_for, found.reading.separator, found.reading.charset) == (100, ";", "utf-16")


def test_a_list_whose_columns_are_named_otherwise_is_read_as_it_looks_and_said_so() -> None:
    last = suggest(csv_file(ring()), "spring.csv").reading
    found = suggest(csv_file(["A1", 3], heads=["Artikel-Nr.", "Netto"]), "summer.csv", last)
    assert (found.known, found.reading.columns) == (False, {"cost": 1, "number": 0})
    assert found.cautions == ("The columns are not named as in the supplier's last list: look at each.",)


def test_a_decimal_mark_that_no_price_shows_is_cautioned_of() -> None:
    found = suggest(csv_file(ring(Net_price="1,234", List_price=""), separator=";"), "list.csv")
    assert found.cautions == ("No price shows what marks its decimals: look at the figures below.",)


def test_a_mark_that_the_prices_contradict_is_cautioned_of() -> None:
    content = csv_file(ring(Net_price="12,50", List_price=""), separator=";")
    chosen = suggest(content, "list.csv").reading.model_copy(update={"decimal_mark": "."})
    assert look(content, chosen).cautions == (
        "Most prices have \u201c,\u201d before their decimals: choose it.",
    )


SEPARATORS = st.sampled_from([",", ";", "\t", "|"])
CHARSETS = st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"])
NUMBERS = st.from_regex(r"K[A-Z0-9]{1,4}[-/ .][0-9]{1,5}", fullmatch=True)
NAMES = st.text(st.sampled_from("abcXYZ \xe9\xf6\xfc,;|\"'./-()0123456789"), max_size=20)
COSTS = st.decimals(min_value=1, max_value=99_999, places=2)
MARKS = st.sampled_from(
    [(".", ","), (".", ""), (".", "'"), (",", "."), (",", ""), (",", "\N{NO-BREAK SPACE}")]
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(NUMBERS, NAMES, COSTS), min_size=1, max_size=6, unique_by=lambda row: row[0]),
    SEPARATORS,
    CHARSETS,
    MARKS,
    st.sampled_from([csv.QUOTE_ALL, csv.QUOTE_MINIMAL]),
    st.sampled_from(["\r\n", "\n", "\r"]),
)
def test_rows_that_are_written_in_any_dialect_are_read_back_the_same(
    rows: list[tuple[str, str, object]],
    separator: str,
    charset: str,
    marks: tuple[str, str],
    quoting: Literal[0, 1],
    end: str,
) -> None:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, quoting=quoting, lineterminator=end)
    writer.writerow(["Part number", "Description", "Net price"])
    swap = str.maketrans({".": marks[0], ",": marks[1]})
    writer.writerows([number, name, f"{cost:,}".translate(swap)] for number, name, cost in rows)
    content = out.getvalue().encode(charset)
    reading = suggest(content, "list.csv").reading
    assert (reading.separator, reading.decimal_mark) == (separator, marks[0])
    found = read_price_list(content, "list.csv", reading)
    assert [(row.number, row.name, row.cost) for row in found.rows] == [
        (number, " ".join(name.split()), cost) for number, name, cost in rows
    ]
    assert not found.rejected


ANY_TEXT = st.lists(
    st.lists(st.text(st.sampled_from("Kk1209.,-+%E'= \"\x00\u20ac\u200b\xe9"), max_size=9), max_size=5).map(
        ";".join
    ),
    max_size=8,
).map(lambda lines: "\n".join(["Part no;Net price;Unit;Pack;EAN", *lines]).encode())


def read_or_refused(content: bytes) -> ReadList | FileFault | None:
    """None where a needed column has to be chosen first."""
    try:
        reading = suggest(content, "list").reading
        return None if reading.missing else read_price_list(content, "list", reading)
    except FileFault as fault:
        return fault


@settings(max_examples=100, deadline=None)
@given(st.one_of(st.binary(max_size=300), ANY_TEXT))
def test_any_bytes_are_read_line_by_line_or_refused_in_words(content: bytes) -> None:
    found = read_or_refused(content)
    if isinstance(found, ReadList):
        assert found.lines == len(found.rows) + len(found.rejected) + found.passed_over
    else:
        assert found is None or str(found)


def packed(**parts: bytes) -> bytes:
    """A workbook of openpyxl's with some of its parts changed; names have __ for / and _ for the point."""
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(workbook(ring()))) as book,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in book.namelist():
            part = name.replace("/", "__").replace(".", "_")
            new.writestr(name, parts.get(part, book.read(name)))
    return out.getvalue()


def sheet(*cells: str) -> bytes:
    """A sheet of nothing but numbers in these cells."""
    rows = "".join(f'<row r="{cell.lstrip("ADFXZ")}"><c r="{cell}"><v>1</v></c></row>' for cell in cells)
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    return f'<worksheet xmlns="{space}"><sheetData>{rows}</sheetData></worksheet>'.encode()


LOCKED = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)
REFUSED: dict[str, tuple[Callable[[], bytes], str]] = {
    "nothing": (lambda: b"", "The file is empty."),
    "blanks": (lambda: b" \n" * 600, "The file is empty."),
    "locked": (lambda: LOCKED, "This is a workbook locked with a password, or one in the old XLS form."),
    "paper": (lambda: b"%PDF-1.7\n", "The file is neither a workbook nor a text."),
    "junk": (lambda: bytes(range(256)) * 8 + bytes(99), "The file is neither a workbook nor a text."),
    "page": (lambda: b"<html><table>", "The file is neither a workbook nor a text."),
    "cut": (lambda: workbook(ring())[:2000], "The workbook can't be read: it is damaged"),
    "other": (lambda: zipped({"a.txt": b"a"}), "The file is a packed file, but no XLSX workbook."),
    "deep": (
        lambda: packed(xl__worksheets__sheet1_xml=sheet("A1", "A1048576")),
        "The sheet \u201cSheet\u201d has 1,048,576 lines and 1 columns. Allowed are 250,000 lines and 200",
    ),
    "far": (
        lambda: packed(xl__worksheets__sheet1_xml=sheet("A1", "XFD1048576")),
        "The workbook can't be read: it is damaged, unpacks to too much, or has cells far away",
    ),
    "hungry": (
        lambda: packed(xl__worksheets__sheet1_xml=sheet("A1", "ZZ90000")),
        "The workbook can't be read: it is damaged, unpacks to too much, or has cells far away",
    ),
    "quotes": (lambda: b'a,b\n"1,2\n', "Line 2 can't be read"),
    "wide": (lambda: b"a," * 201 + b"\n", "The file has a line of 202 columns. Allowed are 200."),
}


def zipped(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize("name", REFUSED)
def test_a_file_that_is_no_list_is_refused_with_what_is_allowed(name: str) -> None:
    make, said = REFUSED[name]
    with pytest.raises(FileFault, match=re.escape(said)):
        suggest(make(), name)


def test_a_bomb_is_refused_by_what_it_says_that_it_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workbooks, "MOST_UNPACKED", 100_000)
    with pytest.raises(FileFault, match=r"unpacks to too much. Allowed are 100,000 bytes"):
        suggest(packed(docProps__core_xml=bytes(100_001)), "bomb.xlsx")


def test_more_lines_than_are_allowed_are_refused_with_their_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("quotes.imports.price_list.delimited.MOST_LINES", 3)
    with pytest.raises(FileFault, match="The file has more than 3 lines"):
        read(csv_file(*(ring(Part_number=f"A{place}") for place in range(4))))


def test_a_file_of_too_many_bytes_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("quotes.imports.price_list.source.MOST_BYTES", 10)
    with pytest.raises(FileFault, match="Allowed are at most 10"):
        suggest(csv_file(ring()), "list.csv")


@pytest.mark.parametrize("sheet", ["Pri\x00ces", "P" * 5000])
def test_a_sheet_that_no_workbook_can_have_is_not_asked_for(sheet: str) -> None:
    assert chosen_so_far({"sheet": sheet, "in_number": "0", "in_cost": "9999"}) == Reading(
        columns={"number": 0}
    )


def test_a_sheet_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(FileFault, match="There is no sheet"):
        look(workbook(ring()), Reading(sheet="Prices"))


def test_a_list_without_its_needed_columns_is_not_read() -> None:
    with pytest.raises(FileFault, match=r"Choose the columns of part number and price first."):
        read_price_list(csv_file(ring()), "list.csv", Reading())


def test_a_character_set_that_does_not_fit_is_named_with_its_line() -> None:
    content = csv_file(ring(), ring(Description="R\xf6hre"), charset="cp1252")
    with pytest.raises(FileFault, match=r"Line 3 holds a character that is not UTF-8."):
        look(content, Reading(charset="utf-8"))


def test_a_list_that_begins_in_another_column_keeps_its_columns() -> None:
    content = workbook([None, None, "KV-1", 5], heads=[None, None, "Part number", "Net price"])
    assert suggest(content, "list.xlsx").reading.columns == {"number": 2, "cost": 3}
    assert [row.number for row in read(content).rows] == ["KV-1"]


def test_the_lines_of_a_workbook_are_counted_as_the_sheet_counts_them() -> None:
    content = workbook(ring(), [], ring(), above=[[], ["Spring"]])
    with opened(content, Reading()) as source:
        assert [line for line, _ in source.lines] == [2, 3, 4, 6]


assert limits.MOST_LINES == 250_000


def test_a_row_without_a_price_is_shown_at_its_successor_s() -> None:
    content = csv_file(ring(), ["KV-9", "Ring, old", "", "", "KV-1"], heads=[*HEADS[:4], "Replaced by"])
    shown = suggest(content, "list.csv").sample[1]
    assert shown.row is not None
    assert (shown.row.number, shown.cost, shown.also) == ("KV-9", "", "replaced by KV-1, at its price")


def test_refused_rows_that_come_back_are_known_by_their_heads() -> None:
    content = csv_file(ring(), ring(Net_price="nothing"))
    given, reading = read(content), suggest(content, "list.csv").reading
    back = refused_file(content, "list.csv", reading, given.rejected).content
    assert suggest(back, "back.csv", reading).refused_before
    assert not suggest(content, "list.csv").refused_before


def test_a_number_is_shown_in_the_digits_that_a_spreadsheet_shows() -> None:
    content = workbook(["KV-1", "Ring", 12 * 1.3, 16.9], heads=HEADS[:4])
    assert suggest(content, "list.xlsx").sample[0].cells[2] == "15.6"


def test_columns_that_the_last_list_did_not_have_are_named() -> None:
    short = csv_file(ring()[:3], heads=HEADS[:3])
    last = suggest(short, "spring.csv").reading
    (caution,) = suggest(csv_file(ring()), "summer.csv", last).cautions
    assert caution.endswith("not read: Replaced by, GTIN, List price, Pack size, Unit.")
    assert suggest(short, "summer.csv", last).cautions == ()
