"""The catalogue as it is now, laid out for a workbook."""

from __future__ import annotations

import json
from typing import Any

from catalogue.calc.book.marks import mark_of
from catalogue.calc.book.values import NO, YES, Book, BookColumn, BookSheet, Cell
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.queries.book.layout import Column, SheetLayout, layout_mark, sheets
from catalogue.queries.book.lines import lines_of
from catalogue.queries.resolved import rows_as_written
from catalogue.queries.shapes import SHAPES

TEXTS = ("code", "text", "yes", "json")


def book_now() -> Book:
    """Every row of the catalogue, as it was written. Raises EmptyCatalogueError where nothing was loaded."""
    return book_of(rows_as_written())


def book_of(rows: CatalogueRows) -> Book:
    """These rows as a workbook."""
    marks = {
        (kind, shape.code_of(row)): mark_of(row)
        for kind, shape in SHAPES.items()
        for row in rows_of_kind(rows, kind)
    }
    return Book(rows.version, layout_mark(), tuple(_sheet(sheet, rows) for sheet in sheets()), marks)


def rows_of_kind(rows: CatalogueRows, kind: str) -> tuple[Row, ...]:
    """The rows of one kind, also of the one that has a single row."""
    found = getattr(rows, kind)
    return found if isinstance(found, tuple) else (found,)


def _sheet(sheet: SheetLayout, rows: CatalogueRows) -> BookSheet:
    columns = tuple(
        BookColumn(one.head, one.sort in TEXTS, (YES, NO) if one.sort == "yes" else one.choices)
        for one in sheet.columns
    )
    lines = lines_of(sheet, rows_of_kind(rows, sheet.kind))
    return BookSheet(
        sheet.name,
        columns,
        [[cell_of(column, line[column.key]) for column in sheet.columns] for line in lines],
    )


def cell_of(column: Column, value: Any) -> Cell:
    """A value as its cell holds it; nothing where an empty cell says the same."""
    if value is None or value == "" or value == column.blank:
        return None
    if column.sort == "yes":
        return YES if value else NO
    if column.sort == "json" and (isinstance(value, bool) or not isinstance(value, int | float)):
        return json.dumps(value, ensure_ascii=False)
    return value  # type: ignore[no-any-return]
