"""A bank's statement: bytes to lines, or every fault with its place. No database."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.calc.said import say
from quotes.calc.books.bank_lines import (
    ColumnsChosen,
    DateOrder,
    Reading,
    StatementLine,
    numbered,
)
from quotes.imports.bank.charset import decoded
from quotes.imports.bank.columns import guessed_columns
from quotes.imports.bank.figures import guessed_mark, guessed_order
from quotes.imports.bank.grid import Grid, grid_of
from quotes.imports.bank.lines import ORDERS, LineReader, cell_at
from quotes.imports.cells import MOST_BYTES
from quotes.imports.faults import FileFault, RowFault, shown

Remembered = Callable[[Sequence[str]], Reading | None]


@dataclass(frozen=True, slots=True)
class Statement:
    """What a file holds, and how it was read. It may be taken in only where there is no fault.

    `missing` names the columns that somebody has to choose; then there are no lines yet. `cautions` are what
    was guessed and could be otherwise.
    """

    reading: Reading
    heads: tuple[str, ...]
    sample: tuple[tuple[str, ...], ...]
    skipped: int
    lines: tuple[StatementLine, ...]
    faults: tuple[RowFault, ...]
    missing: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @property
    def sound(self) -> bool:
        return bool(self.lines) and not self.faults and not self.missing


def read_statement(
    content: bytes,
    chosen: Reading | None = None,
    *,
    on: date,
    decimals: int,
    usual_order: DateOrder = "dmy",
    remembered: Remembered = lambda heads: None,
) -> Statement:
    """Read a statement as chosen; what is not chosen is as it was for the same heads, else guessed.

    FileFault where it can't be read at all, or is cut off. `usual_order` decides where a day could be either.
    """
    if not content.strip():
        raise FileFault(say("The file is empty. Allowed is a CSV file with one line for each payment."))
    if len(content) > MOST_BYTES:
        raise FileFault(
            say(
                "The file has {count} bytes. Allowed are at most {most}.",
                count=f"{len(content):,}",
                most=f"{MOST_BYTES:,}",
            )
        )
    asked = chosen or Reading()
    text, charset = decoded(content, asked.charset)
    grid = grid_of(text, asked.separator, asked.head_line)
    known = remembered(grid.heads) or Reading()
    chosen_before = asked.columns or known.columns
    columns, missing = (chosen_before, ()) if chosen_before else guessed_columns(grid)
    reading = Reading(charset=charset, separator=grid.separator, head_line=grid.head_line, columns=columns)
    reading = reading.model_copy(
        update={
            "decimal_mark": asked.decimal_mark or known.decimal_mark,
            "date_order": asked.date_order or known.date_order,
        }
    )
    if columns is None or (fault := _column_fault(columns, grid)):
        return _unread(grid, reading, missing or (fault,))
    return _read(text, grid, reading, columns, on, decimals, usual_order)


def _column_fault(columns: ColumnsChosen, grid: Grid) -> str:
    places = [columns.date, columns.amount, columns.money_in, columns.money_out, columns.payer, *columns.text]
    if any(place is not None and not 0 <= place < len(grid.heads) for place in places):
        return say("The file has {count} columns: choose among those.", count=len(grid.heads))
    return columns.fault


def _unread(grid: Grid, reading: Reading, missing: tuple[str, ...]) -> Statement:
    return Statement(reading, grid.heads, _sample(grid), grid.skipped, (), (), missing)


def _read(
    text: str,
    grid: Grid,
    reading: Reading,
    columns: ColumnsChosen,
    on: date,
    decimals: int,
    usual_order: DateOrder,
) -> Statement:
    sums = [place for place in (columns.amount, columns.money_in, columns.money_out) if place is not None]
    cells = [cell_at(row, place) for row in grid.rows for place in sums]
    mark = reading.decimal_mark or guessed_mark(cells, grid.separator, decimals)
    days = [cell_at(row, columns.date) for row in grid.rows]
    guessed, sure = guessed_order(days, on, usual_order)
    order = reading.date_order or guessed
    cautions = (
        []
        if sure or reading.date_order
        else [say("Days could be otherwise: read as {order}.", order=say(ORDERS[order]))]
    )
    if not text.endswith(("\n", "\r")) and grid.rows:
        cautions.append(
            say(
                "Line {line} ends the file without a line end: look whether it is whole.",
                line=grid.rows[-1].line,
            )
        )
    reader = LineReader(grid, columns, reading.model_copy(update={"decimal_mark": mark, "date_order": order}))
    lines, faults = reader.read(on, decimals)
    if reader.ways is not None:
        cautions.append(say("Column “{head}” says which way money went.", head=grid.heads[reader.ways]))
    return Statement(
        reading=reader.reading,
        heads=grid.heads,
        sample=_sample(grid),
        skipped=grid.skipped,
        lines=numbered(lines),
        faults=tuple(faults),
        cautions=tuple(cautions),
    )


def _sample(grid: Grid) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(shown(cell) for cell in row.cells) for row in grid.rows[:3])
