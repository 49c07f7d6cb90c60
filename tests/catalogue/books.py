"""Workbooks of the catalogue as a person changes them, without the minute that it takes to save one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from typing import Any

from catalogue.calc.book.values import CATALOGUE, LAYOUT, MARKS_HEADS, MARKS_SHEET, Book
from catalogue.calc.money import round_half_up
from catalogue.documents.catalogue_book import catalogue_workbook
from catalogue.queries import rows_as_written
from catalogue.queries.book.written import book_now, book_of
from catalogue.queries.rows import version
from quotes.imports.catalogue_book.check import CheckedBook, check_opened
from quotes.imports.catalogue_book.sheets import OpenedBook, read_tables
from quotes.imports.cells import Cell, Row, Table

Pages = dict[str, list[list[Any]]]
"""Every sheet as its lines of cells, the heads first."""
Change = Callable[[Pages], None]


def checked(pages: Pages) -> CheckedBook:
    return check_opened(read(pages))


def written_out(book: Book | None = None) -> Pages:
    """The catalogue as it is now, as its workbook holds it."""
    book = book or book_now()
    pages: Pages = {
        sheet.name: [[column.head for column in sheet.columns], *(list(line) for line in sheet.lines)]
        for sheet in book.sheets
    }
    marks: list[list[Any]] = [[kind, code, mark] for (kind, code), mark in book.marks.items()]
    first: list[list[Any]] = [list(MARKS_HEADS), [CATALOGUE, None, book.version], [LAYOUT, None, book.layout]]
    return {**pages, MARKS_SHEET: first + marks}


def changed(*changes: Change) -> Pages:
    """The workbook as it is written out now, after these changes."""
    pages = written_out()
    for change in changes:
        change(pages)
    return pages


def cell(sheet: str, line: dict[str, Any], head: str, value: Any) -> Change:
    """Another value under one head, in the line that says this."""

    def change(pages: Pages) -> None:
        pages[sheet][line_of(pages, sheet, line) - 1][pages[sheet][0].index(head)] = value

    return change


def without(sheet: str, **line: Any) -> Change:
    """The line that says this taken out."""

    def change(pages: Pages) -> None:
        del pages[sheet][line_of(pages, sheet, line) - 1]

    return change


def with_line(sheet: str, **line: Any) -> Change:
    """One line more."""

    def change(pages: Pages) -> None:
        pages[sheet].append([line.get(head.replace(" ", "_")) for head in pages[sheet][0]])

    return change


def line_of(pages: Pages, sheet: str, said: dict[str, Any]) -> int:
    """The line that says this, as a spreadsheet counts."""
    heads, *lines = pages[sheet]
    wanted = [(heads.index(head), value) for head, value in said.items()]
    return 2 + next(
        place for place, line in enumerate(lines) if all(line[column] == value for column, value in wanted)
    )


def read(pages: Pages) -> OpenedBook:
    """As the workbook's own reader gives them."""
    return read_tables(
        {
            name: Table(
                name, tuple(Row(at, tuple(map(_cell, line))) for at, line in enumerate(lines, start=1))
            )
            for name, lines in pages.items()
        }
    )


def _cell(value: Any) -> Cell | None:
    if value is None:
        return None
    if isinstance(value, bool):
        return Cell("odd", str(value).upper())
    if isinstance(value, int | float | Decimal):
        return Cell("number", repr(float(value)))
    return Cell("text", value)


def with_dearer_parts() -> bytes:
    """The workbook as it is written out now, with the first twelve parts dearer by a twentieth."""
    return _with_dearer_parts(version())


@lru_cache(maxsize=1)
def _with_dearer_parts(_: str) -> bytes:
    """Of one version of the catalogue: writing a workbook takes a second."""
    rows = rows_as_written()
    dearer = [
        part.model_copy(update={"list_price": round_half_up(part.list_price * Decimal("1.05"))})
        for part in rows.parts[:12]
    ]
    parts = (*dearer, *rows.parts[12:])
    changed_rows = rows.model_copy(update={"parts": parts})
    return catalogue_workbook(replace(book_of(changed_rows), marks=book_of(rows).marks))
