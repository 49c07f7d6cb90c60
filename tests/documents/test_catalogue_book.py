"""The catalogue's workbook: what is written is what is read again, whoever saved it meanwhile."""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from catalogue.calc.book.marks import mark_of
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.documents.catalogue_book import catalogue_workbook
from catalogue.queries.book.written import book_of, rows_of_kind
from catalogue.queries.shapes import SHAPES
from quotes.imports.catalogue_book.rows import rows_in
from quotes.imports.catalogue_book.sheets import OpenedBook, opened
from quotes.imports.faults import FileFault
from tests.books.read_back import saved_again
from tests.cast import shipped_rows
from tests.catalogue.books import Pages, read, written_out

AWKWARD = (
    "=A1", "+1", "-4 mm", "@home", "1-2", "00123", "1e5", "3.10", "TRUE", "yes", "#REF!",
    "one\ntwo", "end\r\nof line", "_x000D_ as it stands", "a\x01b", "tab\there", "Kühlöl, прокладка, 活塞 😀",
    "x" * 2000,
)  # fmt: skip
OF_EACH = 2


@cache
def few_rows() -> CatalogueRows:
    """Some rows of every kind, the suppliers among them with everything that spreadsheets love to change."""
    rows = shipped_rows()
    some: dict[str, Any] = {kind: rows_of_kind(rows, kind)[:OF_EACH] for kind in SHAPES}
    first = some["suppliers"][0]
    some["suppliers"] = tuple(
        first.model_copy(update={"code": code, "name": f"yard {code}", "note": note})
        for code, note in zip(
            ("1-2", "00123", "1e5", *(f"yard_{place}" for place in range(3, len(AWKWARD)))),
            AWKWARD,
            strict=True,
        )
    )
    engine, *engines = some["engine_types"]
    # Neither has so few digits as a spreadsheet keeps.
    some["engine_types"] = (engine.model_copy(update={"bore_mm": 0.1 + 0.2, "stroke_mm": 200 / 3}), *engines)
    (fact, *facts) = some["facts"]
    values = {"third": 1 / 3, "sum": 0.1 + 0.2, "none": None, "list": [1, "two"], "large": 10**14}
    some["facts"] = (fact.model_copy(update={"values": values}), *facts)
    return rows.model_copy(update={**some, "basis": rows.basis})


def marks(rows: CatalogueRows | None, book: OpenedBook | None = None) -> dict[tuple[str, str], str]:
    found: dict[str, dict[str, Row]] = {}
    if book is not None:
        read_again = rows_in(book)
        assert [str(fault) for fault in (*book.faults, *read_again.faults)] == []
        found = read_again.rows
    elif rows is not None:
        found = {
            kind: {shape.code_of(row): row for row in rows_of_kind(rows, kind)}
            for kind, shape in SHAPES.items()
        }
    return {(kind, code): mark_of(row) for kind, of_kind in found.items() for code, row in of_kind.items()}


def test_what_is_written_is_what_is_read_also_when_another_program_saved_it(tmp_path: Path) -> None:
    content = catalogue_workbook(book_of(few_rows()))
    expected = marks(few_rows())
    assert marks(None, opened(content)) == expected
    assert marks(None, opened(saved_again(content, tmp_path))) == expected


def test_numbers_are_numbers_text_is_text_and_nothing_is_a_formula() -> None:
    book = load_workbook(io.BytesIO(catalogue_workbook(book_of(few_rows()))))
    for page in book.worksheets[1:]:
        assert "f" not in {cell.data_type for row in page.iter_rows(min_row=2) for cell in row}, page.title
    heads = [cell.value for cell in book["parts"][1]]
    priced = book["parts"].cell(2, heads.index("list price") + 1)
    assert isinstance(priced.value, int | float)
    assert book["parts"].column_dimensions["A"].number_format == "@"
    offered = book["parts"].data_validations.dataValidation
    assert [one.formula1 for one in offered] == ['"stock,performance"']


def test_a_workbook_that_is_none_of_ours_is_refused_as_a_whole() -> None:
    pages = written_out(book_of(few_rows()))
    with pytest.raises(FileFault, match="XLSX"):
        opened(b"code,name\n")
    with pytest.raises(FileFault, match="“export” is missing or was changed"):
        read({name: page for name, page in pages.items() if name != "export"})
    with pytest.raises(FileFault, match="Missing: note; unknown: remark"):
        read(
            {**pages, "suppliers": [["remark" if head == "note" else head for head in pages["suppliers"][0]]]}
        )
    with pytest.raises(FileFault, match="“offers” is missing"):
        read({name: page for name, page in pages.items() if name != "offers"})
    with pytest.raises(FileFault, match="another release"):
        read({**pages, "export": [*pages["export"][:2], ["layout", None, "0" * 16], *pages["export"][3:]]})


VALUES = st.one_of(
    st.none(), st.integers(-3, 4000), st.floats(-10, 10, allow_nan=False), st.booleans(),
    st.sampled_from(["yes", "stock", "piston", "rod_bolt", "x y", "0012", "{}", "none of it"]),
    st.text(max_size=8),
)  # fmt: skip


@settings(max_examples=25)
@given(st.data())
def test_a_cell_changed_at_random_is_told_or_taken_and_touches_no_other_entry(data: st.DataObject) -> None:
    pages = {name: [list(line) for line in page] for name, page in written_out(book_of(few_rows())).items()}
    sheet = data.draw(
        st.sampled_from([name for name, page in pages.items() if len(page) > 1 and name != "export"])
    )
    line = data.draw(st.integers(1, len(pages[sheet]) - 1))
    column = data.draw(st.integers(0, len(pages[sheet][0]) - 1))
    entry = pages[sheet][line][0]
    pages[sheet][line][column] = data.draw(VALUES)
    told, now = _told(pages), {}
    if not told:
        now = marks(None, read(pages))
        differ = {code for _, code in dict(marks(few_rows()).items() ^ now.items())}
        assert len(differ - {entry}) <= (1 if column == 0 else 0), "another entry than the line's"
    else:
        assert all(fault.reason and fault.allowed and fault.sheet for fault in told)
        assert any(fault.line == line + 1 or entry in str(fault) for fault in told)


def _told(pages: Pages) -> list[Any]:
    book = read(pages)
    return [*book.faults] or rows_in(book).faults
