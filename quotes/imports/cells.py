"""Lines of cells as every kind of file gives them, and how large a file may be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import to_say

MOST_BYTES = 2_000_000
MOST_ROWS = 5_000
MOST_COLUMNS = 60
LONGEST_CELL = 20_000
"""A longer text is cut: it is a fault anyway, and named by the cell it stands in."""
KINDS = to_say("an XLSX workbook, or a CSV file in UTF-8 or Windows-1252")

Kind = Literal["text", "number", "date", "odd"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One filled cell. `odd` is what no column can take: true or false, a time, an error, a bare formula."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the sheet, counted from 1; blank cells are None."""

    line: int
    cells: tuple[Cell | None, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """All filled lines of one sheet."""

    sheet: str
    rows: tuple[Row, ...]
