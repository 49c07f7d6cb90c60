"""Tables whose first line names their columns, in any order: where each stands, and what a line says."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, say_figure
from catalogue.calc.search_key import search_key
from quotes.imports.cell_values import BadCell
from quotes.imports.cells import Cell, Row, Table
from quotes.imports.faults import FileFault, RowFault, shown

Value = str | Decimal | date


@dataclass(frozen=True, slots=True)
class Column:
    """`longest` counts characters of a text; `needed` columns are filled in on every line."""

    key: str
    english: str
    kind: str
    allows: str
    example: str
    needed: bool = False
    longest: int = 0

    @property
    def heading(self) -> str:
        return say(self.english)

    @property
    def names(self) -> tuple[str, ...]:
        """What its first line may call it."""
        return self.key, self.english, self.heading

    @property
    def allowed(self) -> str:
        """What may stand there."""
        return say(self.allows)


def heading_key(heading: str) -> str:
    """A heading without case, spaces and marks."""
    return search_key(heading).replace(" ", "")


def columns_of(table: Table, known: Iterable[Column]) -> dict[int, Column]:
    """The columns by their place. FileFault for one unknown, twice or missing.

    One is named by its key or its heading, in the reader's language or in English.
    """
    known = tuple(known)
    named = {heading_key(words): column for column in known for words in column.names}
    columns: dict[int, Column] = {}
    wrong: list[str] = []
    for place, cell in enumerate(table.rows[0].cells):
        column = named.get(heading_key(cell.text)) if cell else None
        if column and column in columns.values():
            wrong.append(say("“{heading}” stands there twice", heading=column.heading))
        elif column:
            columns[place] = column
        elif cell:
            wrong.append(say("“{heading}” is not known", heading=shown(cell.text)))
    missing = [one.heading for one in known if one.needed and one not in columns.values()]
    wrong += [say("“{heading}” is missing", heading=heading) for heading in missing]
    if wrong:
        allowed = ", ".join(column.heading for column in known)
        raise FileFault(
            say(
                "The first line names the columns: {wrong}. Allowed are: {allowed}.",
                wrong="; ".join(wrong),
                allowed=allowed,
            )
        )
    return columns


def values_of(
    sheet: str, row: Row, columns: Mapping[int, Column], value: Callable[[Cell, Column], Value]
) -> tuple[dict[str, Value], list[RowFault]]:
    """What one line says by the columns' keys, and a fault for each cell that says nothing usable."""
    values: dict[str, Value] = {}
    faults: list[RowFault] = []
    for place, column in columns.items():
        cell = row.cells[place] if place < len(row.cells) else None
        if cell is None:
            if column.needed:
                faults.append(RowFault(sheet, row.line, column.heading, "", say("is blank"), column.allowed))
            continue
        try:
            values[column.key] = value(_plain(cell, column), column)
        except BadCell as bad:
            told = shown(cell.text)
            faults.append(RowFault(sheet, row.line, column.heading, told, bad.reason, bad.allowed))
    return values, faults


def _plain(cell: Cell, column: Column) -> Cell:
    if cell.kind == "odd":
        raise BadCell(say("is a formula without a result, an error, a time or a yes/no"), column.allowed)
    return cell


def text_in(cell: Cell, column: Column) -> str:
    """A line of text; a number that a spreadsheet made of it is taken as it was typed."""
    text = " ".join(cell.text.split())
    if cell.kind == "number" and text.endswith(".0"):
        text = text.removesuffix(".0")
    if any(not char.isprintable() for char in text):
        raise BadCell(say("holds a character that can't be seen"), say("letters, figures and marks"))
    if len(text) > column.longest:
        raise BadCell(
            say("has {count} characters", count=say_figure(len(text), 0)),
            say("at most {most}", most=column.longest),
        )
    return text


def code_in(cell: Cell, names: Mapping[str, str], allowed: str) -> str:
    """The code whose name, or which itself, stands there."""
    wanted = search_key(cell.text)
    for code, name in names.items():
        if wanted in (search_key(code), search_key(name)):
            return code
    raise BadCell(say("is not known"), allowed)
