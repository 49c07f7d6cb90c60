"""The catalogue as a workbook holds it: plain sheets of cells, and the marks that tell what was changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

Cell = str | int | float | Decimal | None
MARKS_SHEET = "export"
"""The sheet by which the workbook is known again."""
MARKS_HEADS = ("kind", "code", "mark")
CATALOGUE, LAYOUT = "catalogue", "layout"
"""What its first two lines say: the catalogue's version, and the mark of the sheets' columns."""
YES, NO = "yes", "no"


@dataclass(frozen=True, slots=True)
class BookColumn:
    """The head of a column, whether it takes text, and what it chooses from."""

    head: str
    is_text: bool
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BookSheet:
    """One sheet: its columns and the cells of its lines."""

    name: str
    columns: tuple[BookColumn, ...]
    lines: Sequence[Sequence[Cell]]


@dataclass(frozen=True, slots=True)
class Book:
    """The whole workbook. `marks` are by kind and code."""

    version: str
    layout: str
    sheets: tuple[BookSheet, ...]
    marks: Mapping[tuple[str, str], str]
