"""A table as a file to take away: CSV or a workbook, numbers as numbers, text that no spreadsheet runs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say

Cell = str | int | float | Decimal | bool | None

RUNS = ("=", "+", "-", "@", "\t", "\r")
"""A text that begins so is taken for a formula by some spreadsheet."""
WIDEST = 60
NARROWEST = 8


@dataclass(frozen=True, slots=True)
class TableFile:
    """A title, the heads of the columns, and the rows under them."""

    title: str
    heads: Sequence[str]
    rows: Sequence[Sequence[Cell]]


def as_csv(table: TableFile, separator: str = ",", charset: str = "utf-8-sig") -> bytes:
    """In UTF-8 with its mark, so that spreadsheets read accents, also where it does not go into `charset`.

    A text that might be run as a formula gets an apostrophe before it.
    """
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator)
    writer.writerow([_harmless(head) for head in table.heads])
    writer.writerows([_harmless(cell) for cell in row] for row in table.rows)
    try:
        return out.getvalue().encode(charset)
    except UnicodeEncodeError:
        return out.getvalue().encode("utf-8-sig")


def _harmless(cell: Cell) -> Cell:
    if isinstance(cell, str):
        text = _storable(cell)
        return f"'{text}" if text.startswith(RUNS) else text
    return "" if cell is None else _plain(cell)


def _plain(cell: Cell) -> Cell:
    return (say("yes") if cell else say("no")) if isinstance(cell, bool) else cell


def as_workbook(table: TableFile) -> bytes:
    """One sheet with the head row frozen and widths that fit; every text is stored as text.

    On paper it is as wide as the page, with its head on each; figures of a column have as many decimals.
    """
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    sheet = book.create_sheet(_sheet_name(table.title))
    for place, width in enumerate(_widths(table), start=1):
        sheet.column_dimensions[get_column_letter(place)].width = width
    sheet.freeze_panes = "A2"
    _lay_out(sheet, f"A1:{get_column_letter(max(len(table.heads), 1))}{len(table.rows) + 1}")
    heads = []
    for head in table.heads:
        cell = WriteOnlyCell(sheet, value=_storable(head))
        cell.data_type, cell.font = "s", Font(bold=True)
        heads.append(cell)
    sheet.append(heads)
    formats = _formats(table)
    for row in table.rows:
        sheet.append(list(_cells(sheet, row, formats)))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _lay_out(sheet: Any, filled: str) -> None:
    """For the printer, and for whoever narrows the list."""
    from openpyxl.worksheet.properties import PageSetupProperties

    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = "1:1"
    sheet.auto_filter.ref = filled


def _formats(table: TableFile) -> list[str]:
    """How the figures of each column are written: by the most decimals that one of them has."""
    decimals = [-1] * len(table.heads)
    for row in table.rows:
        for place, cell in enumerate(row):
            if isinstance(cell, Decimal) and isinstance(exponent := cell.as_tuple().exponent, int):
                decimals[place] = max(decimals[place], -exponent, 0)
    return ["" if most < 0 else f"#,##0.{'0' * most}".rstrip(".") for most in decimals]


def _cells(sheet: object, row: Iterable[Cell], formats: Sequence[str]) -> Iterator[object]:
    from openpyxl.cell import WriteOnlyCell

    for value, written in zip(row, formats, strict=False):
        plain = _plain(value)
        cell = WriteOnlyCell(sheet, value=_storable(plain) if isinstance(plain, str) else plain)  # type: ignore[arg-type]
        if isinstance(plain, str):
            # Else a text that begins with = is stored as a formula.
            cell.data_type = "s"
        elif written and isinstance(plain, Decimal):
            cell.number_format = written
        yield cell


def _widths(table: TableFile) -> list[int]:
    lengths = [len(str(head)) for head in table.heads]
    for row in table.rows:
        for place, cell in enumerate(row):
            lengths[place] = max(lengths[place], len(str("" if cell is None else cell)))
    return [min(WIDEST, max(NARROWEST, length + 2)) for length in lengths]


def _storable(text: str) -> str:
    """The text without the control characters that a workbook can't hold."""
    return "".join(letter for letter in text if letter >= " " or letter in "\n\t")


def _sheet_name(title: str) -> str:
    return "".join(letter for letter in title if letter not in r"[]:*?/\\")[:31] or "Sheet"
