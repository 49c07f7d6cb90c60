"""The catalogue's workbook: every sheet with its head, numbers as numbers, text that no spreadsheet runs."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from catalogue.calc.book.values import (
    CATALOGUE,
    LAYOUT,
    MARKS_HEADS,
    MARKS_SHEET,
    Book,
    BookColumn,
    BookSheet,
    Cell,
)
from catalogue.calc.said import say, to_say

if TYPE_CHECKING:
    from openpyxl import Workbook

WIDEST, NARROWEST = 60, 8
AS_TEXT = "@"
"""The format in which a cell keeps what is typed: 00123 stays, and 1-2 is no day in January."""
HIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f]|_(?=x[0-9A-Fa-f]{4}_)")
"""What a workbook can't hold as it is, and what would be read as one of these."""
LONGEST_LIST = 255
READ_FIRST = to_say("read first")
RULES = (
    to_say("One sheet for each kind of entry, and one for what each entry has several of."),
    to_say("Change what you like, add lines, delete lines; the order of lines and columns says nothing."),
    to_say("A code never changes: under another code stands another entry."),
    to_say("An entry goes with its line, and only where nothing refers to it."),
    to_say("Leave the heads and the last sheet as they are: by these the workbook is known again."),
    to_say(
        "Taken in again, every cell is checked first. You are shown each change before it is made, "
        "and all of them are made or none."
    ),
)


def catalogue_workbook(book: Book) -> bytes:
    """The workbook, as XLSX."""
    from openpyxl import Workbook  # 0.4 s of import that no page waits for

    written = Workbook(write_only=True)
    _read_first(written, book)
    for sheet in book.sheets:
        _put(written, sheet)
    _put(written, _marks(book))
    out = io.BytesIO()
    written.save(out)
    return out.getvalue()


def _read_first(written: Workbook, book: Book) -> None:
    page = written.create_sheet(say(READ_FIRST))
    page.column_dimensions["A"].width, page.column_dimensions["B"].width = 28, 90
    page.append([_text(page, say("The whole catalogue"), bold=True)])
    for rule in RULES:
        page.append([None, _text(page, say(rule))])
    page.append([])
    page.append([_text(page, say("Sheet"), bold=True), _text(page, say("Lines"), bold=True)])
    for sheet in book.sheets:
        page.append([_text(page, sheet.name), len(sheet.lines)])


def _marks(book: Book) -> BookSheet:
    lines: list[Sequence[Cell]] = [(CATALOGUE, None, book.version), (LAYOUT, None, book.layout)]
    lines += [(kind, code, mark) for (kind, code), mark in book.marks.items()]
    return BookSheet(MARKS_SHEET, tuple(BookColumn(head, is_text=True) for head in MARKS_HEADS), lines)


def _put(written: Workbook, sheet: BookSheet) -> None:
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.datavalidation import DataValidation

    page = written.create_sheet(sheet.name)
    page.freeze_panes = "B2"
    for place, column in enumerate(sheet.columns, start=1):
        letter = get_column_letter(place)
        size = page.column_dimensions[letter]
        size.width = _width(column.head, (line[place - 1] for line in sheet.lines))
        if column.is_text:
            size.number_format = AS_TEXT
        named = ",".join(column.choices)
        if column.choices and len(named) <= LONGEST_LIST:
            choice = DataValidation(type="list", formula1=f'"{named}"', allow_blank=True)
            choice.add(f"{letter}2:{letter}1048576")
            page.data_validations.append(choice)
    page.append([_text(page, column.head, bold=True) for column in sheet.columns])
    for line in sheet.lines:
        page.append([_text(page, cell) if isinstance(cell, str) else cell for cell in line])


def _text(page: object, text: str, *, bold: bool = False) -> object:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font

    # The type is set by hand, else a text that begins with = is stored as a formula.
    cell: Any = WriteOnlyCell(page, value="")  # type: ignore[arg-type]
    cell._value, cell.data_type = held(text), "s"
    cell.number_format = AS_TEXT
    if bold:
        cell.font = Font(bold=True)
    return cell


def held(text: str) -> str:
    """The text with what a workbook can't hold written as workbooks do: _x000D_ for a carriage return."""
    return HIDDEN.sub(lambda found: f"_x{ord(found[0]):04X}_", text)


def _width(head: str, cells: Iterable[Cell]) -> int:
    longest = max((len(str(cell)) for cell in cells if cell is not None), default=0)
    return min(WIDEST, max(NARROWEST, len(head) + 2, longest + 2))
