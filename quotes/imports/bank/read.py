"""A bank's statement: bytes to lines, or every fault with its place. No database."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.books.bank_lines import (
    LONGEST_PAYER,
    LONGEST_TEXT,
    ColumnsChosen,
    DateOrder,
    Reading,
    StatementLine,
    numbered,
)
from quotes.imports.bank.charset import decoded
from quotes.imports.bank.columns import guessed_columns
from quotes.imports.bank.figures import day_of, guessed_mark, guessed_order, sum_of
from quotes.imports.bank.grid import Grid, GridRow, grid_of
from quotes.imports.bank.ways import way_column, way_of
from quotes.imports.cells import MOST_BYTES
from quotes.imports.faults import FileFault, RowFault, shown

SHEET = "Statement"
EARLIEST = date(1990, 1, 1)
AHEAD_DAYS = 31
"""Banks date some payments by their value day, which lies a little ahead."""
ORDERS = {
    "ymd": to_say("year-month-day"),
    "dmy": to_say("day.month.year"),
    "mdy": to_say("month/day/year"),
}
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
    cells = [_cell(row, place) for row in grid.rows for place in sums]
    mark = reading.decimal_mark or guessed_mark(cells, grid.separator, decimals)
    days = [_cell(row, columns.date) for row in grid.rows]
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
    reader = _Reader(grid, columns, reading.model_copy(update={"decimal_mark": mark, "date_order": order}))
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


def _cell(row: GridRow, place: int | None) -> str:
    return row.cells[place].strip() if place is not None and place < len(row.cells) else ""


class _Reader:
    """Reads each line on its own, and gathers what is wrong."""

    def __init__(self, grid: Grid, columns: ColumnsChosen, reading: Reading) -> None:
        self.grid, self.columns, self.reading = grid, columns, reading
        self.ways = way_column(grid, columns)
        self.faults: list[RowFault] = []

    def read(self, on: date, decimals: int) -> tuple[list[StatementLine], list[RowFault]]:
        lines = [self._line(row, on, decimals) for row in self.grid.rows]
        return [line for line in lines if line], self.faults

    def _line(self, row: GridRow, on: date, decimals: int) -> StatementLine | None:
        width, before = len(self.grid.heads), len(self.faults)
        if len(row.cells) < width:
            self._fault(
                row,
                "",
                str(len(row.cells)),
                say("columns are there"),
                say("{width} columns on each line", width=width),
            )
            return None
        if any(cell.strip() for cell in row.cells[width:]):
            self._fault(
                row,
                say("no heading"),
                row.cells[width],
                say("stands under no heading"),
                say("{width} columns", width=width),
            )
        day, amount = self._day(row, on), self._amount(row, decimals)
        if day is None or amount is None or len(self.faults) > before:
            return None
        text = " ".join(_cell(row, place) for place in self.columns.text)
        payer = _plain(_cell(row, self.columns.payer))
        return StatementLine(row.line, day, amount, payer[:LONGEST_PAYER], _plain(text)[:LONGEST_TEXT])

    def _day(self, row: GridRow, on: date) -> date | None:
        said, order = _cell(row, self.columns.date), self.reading.date_order
        day = day_of(said, order)
        written = ORDERS[order or "dmy"]
        if day is None:
            self._fault(
                row,
                self._head(self.columns.date),
                said,
                say("is no day"),
                say("a day as {order}", order=say(written)),
            )
        elif day < EARLIEST or (day - on).days > AHEAD_DAYS:
            allowed = say(
                "from {earliest} to {days} days after {on}",
                earliest=EARLIEST,
                days=AHEAD_DAYS,
                on=on,
            )
            self._fault(row, self._head(self.columns.date), said, say("lies too far back or ahead"), allowed)
        return day

    def _amount(self, row: GridRow, decimals: int) -> Decimal | None:
        if self.columns.amount is not None:
            amount = self._sum(row, self.columns.amount, decimals)
            return None if amount is None else amount * way_of(row, self.ways)
        came_in = self._one_way(row, self.columns.money_in, decimals)
        went_out = self._one_way(row, self.columns.money_out, decimals)
        if came_in and went_out:
            head = self._head(self.columns.money_out)
            self._fault(
                row,
                head,
                _cell(row, self.columns.money_out),
                say("stands beside money in"),
                say("one of both"),
            )
        elif came_in is None and went_out is None:
            self._fault(
                row,
                self._head(self.columns.money_in),
                "",
                say("is blank in both columns"),
                say("a sum in one"),
            )
            return None
        return (came_in or ZERO) - abs(went_out or ZERO)

    def _one_way(self, row: GridRow, place: int | None, decimals: int) -> Decimal | None:
        """The sum in a column of one way, None where it is blank."""
        if place is None or not _cell(row, place):
            return None
        amount = self._sum(row, place, decimals)
        if amount is not None and amount < ZERO and place == self.columns.money_in:
            self._fault(
                row, self._head(place), _cell(row, place), say("is below nought"), say("a sum above nought")
            )
        return amount if amount is not None else ZERO

    def _sum(self, row: GridRow, place: int, decimals: int) -> Decimal | None:
        said, mark = _cell(row, place), self.reading.decimal_mark
        amount = sum_of(said, mark, decimals)
        if amount is None:
            allowed = (
                say("a sum below ten million with a comma and at most {decimals} decimals", decimals=decimals)
                if mark == ","
                else say(
                    "a sum below ten million with a point and at most {decimals} decimals", decimals=decimals
                )
            )
            self._fault(row, self._head(place), said, say("is no sum") if said else say("is blank"), allowed)
        return amount

    def _head(self, place: int | None) -> str:
        return self.grid.heads[place] if place is not None else ""

    def _fault(self, row: GridRow, column: str, value: str, reason: str, allowed: str) -> None:
        self.faults.append(RowFault(SHEET, row.line, column or say("line"), shown(value), reason, allowed))


def _plain(text: str) -> str:
    """The text in one line, without what can't be seen or stored."""
    joined = " ".join(unicodedata.normalize("NFC", text).split())
    return "".join(char for char in joined if char.isprintable())
