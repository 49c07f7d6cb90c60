"""The lines of every sheet of the workbook, with a fault for each cell that says nothing usable."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from catalogue.calc.book.values import CATALOGUE, LAYOUT, MARKS_HEADS, MARKS_SHEET
from catalogue.calc.said import say, say_figure
from catalogue.queries.book.layout import Column, SheetLayout, layout_mark, sheets
from catalogue.queries.shapes.shape import Line
from quotes.imports.catalogue_book.cell_values import value_in
from quotes.imports.cell_values import BadCell
from quotes.imports.cells import Cell, Row, Table
from quotes.imports.faults import FileFault, RowFault, shown
from quotes.imports.table import PACKED
from quotes.imports.workbook import workbook_tables

MOST_BYTES = 8_000_000
MOST_ROWS = 50_000


@dataclass(frozen=True, slots=True)
class Lined:
    """One line of a sheet: its number, and its values by the columns' keys."""

    number: int
    values: Line


@dataclass(frozen=True, slots=True)
class OpenedBook:
    """The workbook, cell by cell. Where `faults` stand, their lines are left out."""

    version: str
    marks: Mapping[tuple[str, str], str]
    lines: Mapping[str, Sequence[Lined]]
    """By the sheet's name."""
    faults: tuple[RowFault, ...]

    @property
    def count(self) -> int:
        return sum(len(lines) for lines in self.lines.values())


def opened(content: bytes) -> OpenedBook:
    """The cells of the workbook. FileFault where it is none of ours, or of another release."""
    if not content.startswith(PACKED):
        raise FileFault(say("The file is no XLSX workbook. Allowed is a workbook that was written out here."))
    if len(content) > MOST_BYTES:
        raise FileFault(
            say(
                "The file has {count} bytes. Allowed are at most {most}.",
                count=say_figure(len(content), 0),
                most=say_figure(MOST_BYTES, 0),
            )
        )
    return read_tables(workbook_tables(content, MOST_ROWS))


def read_tables(tables: Mapping[str, Table]) -> OpenedBook:
    """The cells of the sheets by name. FileFault where they are none of ours, or of another release."""
    version, marks = _marks(tables)
    faults: list[RowFault] = []
    lines = {sheet.name: _lines(sheet, tables, faults) for sheet in sheets()}
    return OpenedBook(version, marks, lines, tuple(faults))


def _marks(tables: Mapping[str, Table]) -> tuple[str, dict[tuple[str, str], str]]:
    table = tables.get(MARKS_SHEET)
    told = [_texts(row) for row in table.rows] if table else []
    if len(told) < 3 or told[0] != MARKS_HEADS or (told[1][0], told[2][0]) != (CATALOGUE, LAYOUT):
        raise FileFault(
            say(
                "The sheet “{sheet}” is missing or was changed; by it the workbook is known again. Write "
                "the catalogue out anew and make the changes there.",
                sheet=MARKS_SHEET,
            )
        )
    if told[2][2] != layout_mark():
        raise FileFault(
            say(
                "The workbook is from another release, whose sheets hold other columns. Write the catalogue "
                "out anew and make the changes there."
            )
        )
    return told[1][2], {(kind, code): mark for kind, code, mark in told[3:]}


def _texts(row: Row) -> tuple[str, str, str]:
    """The first three cells. A code of digits alone may have been made a number."""
    texts = [cell.text.removesuffix(".0") if cell else "" for cell in (*row.cells, None, None, None)[:3]]
    return texts[0], texts[1], texts[2]


def _lines(sheet: SheetLayout, tables: Mapping[str, Table], faults: list[RowFault]) -> list[Lined]:
    table = tables.get(sheet.name.casefold())
    if table is None or not table.rows:
        raise FileFault(say("The sheet “{sheet}” is missing or empty.", sheet=sheet.name))
    head, *rows = table.rows
    places = _columns(sheet, head)
    found = []
    for row in rows:
        wrong = list(_wrong_cells(sheet, row, places))
        faults += wrong
        if not wrong:
            found.append(
                Lined(row.line, {one.key: value_in(_at(row, at), one) for at, one in places.items()})
            )
    return found


def _columns(sheet: SheetLayout, head: Row) -> dict[int, Column]:
    """The columns by their place, in whatever order they stand."""
    named = {_key(column.head): column for column in sheet.columns}
    heads = [(place, cell.text) for place, cell in enumerate(head.cells) if cell]
    unknown = [shown(text) for _, text in heads if _key(text) not in named]
    places = {place: named[_key(text)] for place, text in heads if _key(text) in named}
    missing = [column.head for column in sheet.columns if column not in places.values()]
    if unknown or missing or len(places) > len(sheet.columns):
        raise FileFault(
            say(
                "The heads of the sheet “{sheet}” are not those that were written out. Missing: {missing}; "
                "unknown: {unknown}. Allowed are, once each: {allowed}.",
                sheet=sheet.name,
                missing=", ".join(missing) or "-",
                unknown=", ".join(unknown) or "-",
                allowed=", ".join(column.head for column in sheet.columns),
            )
        )
    return places


def _key(head: str) -> str:
    return " ".join(head.casefold().split())


def _at(row: Row, place: int) -> Cell | None:
    return row.cells[place] if place < len(row.cells) else None


def _wrong_cells(sheet: SheetLayout, row: Row, places: Mapping[int, Column]) -> Iterator[RowFault]:
    for place, column in places.items():
        cell = _at(row, place)
        try:
            value_in(cell, column)
        except BadCell as bad:
            told = shown(cell.text) if cell else ""
            yield RowFault(sheet.name, row.line, column.head, told, bad.reason, bad.allowed)
    beyond = [cell for place, cell in enumerate(row.cells) if cell and place not in places]
    if beyond:
        reason = say("stands under no head")
        yield RowFault(sheet.name, row.line, "", shown(beyond[0].text), reason, say("nothing"))
