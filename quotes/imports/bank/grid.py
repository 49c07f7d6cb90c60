"""The lines of a statement as cells: separator, line of heads, and whether the file is whole."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.calc.said import say, to_say
from quotes.imports.bank.charset import cut_off
from quotes.imports.bank.figures import looks_like_day, looks_like_sum
from quotes.imports.cells import MOST_COLUMNS, MOST_ROWS
from quotes.imports.faults import FileFault

SEPARATORS = {
    ";": to_say("semicolon"),
    ",": to_say("comma"),
    "\t": to_say("tab"),
    "|": to_say("bar"),
}
LOOKED_AT = 60
"""Lines from which a separator is guessed, and among which the line of heads is looked for."""


@dataclass(frozen=True, slots=True)
class GridRow:
    """One filled line with its place in the file, counted from 1."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A statement as cells. Without a line of heads `head_line` is 0 and columns are named by number."""

    separator: str
    head_line: int
    heads: tuple[str, ...]
    rows: tuple[GridRow, ...]
    skipped: int
    """Filled lines before the heads."""


def grid_of(text: str, separator: str = "", head_line: int | None = None) -> Grid:
    """FileFault where the text is no table, is too large, or is cut off."""
    if separator and separator not in SEPARATORS:
        raise FileFault(
            say(
                "“{separator}” is no separator. Allowed are {names}.",
                separator=separator,
                names=", ".join(say(name) for name in SEPARATORS.values()),
            )
        )
    used = separator or _separator(text)
    rows = _rows(text, used)
    if not rows:
        raise FileFault(
            say("There is nothing in the file. Allowed is a CSV file with one line for each payment.")
        )
    place = _head_place(rows) if head_line is None else _chosen_place(rows, head_line)
    heads = _heads(rows[place].cells if place >= 0 else (), rows)
    body = rows[place + 1 :]
    _refuse_cut_off(body, len(heads))
    return Grid(used, rows[place].line if place >= 0 else 0, heads, tuple(body), max(place, 0))


def _separator(text: str) -> str:
    """The one that parts most lines into the same number of columns."""
    sample = text.splitlines()[: LOOKED_AT * 2]
    lines = [line for line in sample if line.strip()][:LOOKED_AT]

    def weight(separator: str) -> int:
        widths = Counter(_width(line, separator) for line in lines)
        return max(((width - 1) * times for width, times in widths.items()), default=0)

    return max(SEPARATORS, key=weight)


def _width(line: str, separator: str) -> int:
    try:
        return len(next(csv.reader([line], delimiter=separator), ()))
    except csv.Error:
        return 1


def _rows(text: str, separator: str) -> list[GridRow]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[GridRow] = []
    begins = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append(GridRow(begins, tuple(cells)))
            begins = reader.line_num + 1
            if len(rows) > MOST_ROWS or len(cells) > MOST_COLUMNS:
                raise FileFault(
                    say(
                        "The file is too large. Allowed are {lines} lines and {columns} columns.",
                        lines=f"{MOST_ROWS:,}",
                        columns=MOST_COLUMNS,
                    )
                )
    except csv.Error as error:
        if "end of data" in str(error):
            raise cut_off(begins, say("it opens a quotation mark that is never closed")) from error
        raise FileFault(
            say(
                "Line {line} can't be read ({error}). Look at its quotation marks.",
                line=begins,
                error=error,
            )
        ) from error
    return rows


def _head_place(rows: Sequence[GridRow]) -> int:
    """Where the heads stand: the last line without a figure before the first payment. -1: nowhere.

    Where no line is a payment it is the first of the usual width.
    """
    widths = Counter(len(row.cells) for row in rows)
    usual = max(widths, key=lambda width: (widths[width] * (width > 1), width))
    body = [place for place, row in enumerate(rows) if len(row.cells) == usual]
    first = next((place for place in body[:LOOKED_AT] if _is_payment(rows[place])), None)
    if first is None:
        return body[0]
    above = (place for place in range(first - 1, -1, -1) if _names_columns(rows[place]))
    return next(above, -1)


def _names_columns(row: GridRow) -> bool:
    return not _has_figures(row) and sum(bool(cell.strip()) for cell in row.cells) > 1


def _chosen_place(rows: Sequence[GridRow], head_line: int) -> int:
    if head_line == 0:
        return -1
    for place, row in enumerate(rows):
        if row.line == head_line:
            return place
    raise FileFault(say("Line {line} is blank or not there, so it can't name the columns.", line=head_line))


def _heads(named: Sequence[str], rows: Sequence[GridRow]) -> tuple[str, ...]:
    """The heads without blank ones at the end; numbers where there are none."""
    if not named:
        width = max(len(row.cells) for row in rows)
        return tuple(f"Column {number}" for number in range(1, width + 1))
    heads = [" ".join(head.split()) for head in named]
    while heads and not heads[-1]:
        heads.pop()
    return tuple(head or f"Column {number}" for number, head in enumerate(heads, start=1))


def _refuse_cut_off(rows: Sequence[GridRow], width: int) -> None:
    if rows and len(rows[-1].cells) < width:
        raise cut_off(
            rows[-1].line, say("it has {count} of {width} columns", count=len(rows[-1].cells), width=width)
        )


def _is_payment(row: GridRow) -> bool:
    days = [cell for cell in row.cells if looks_like_day(cell)]
    return bool(days) and any(looks_like_sum(cell) for cell in row.cells if cell not in days)


def _has_figures(row: GridRow) -> bool:
    return any(looks_like_day(cell) or looks_like_sum(cell) for cell in row.cells)
