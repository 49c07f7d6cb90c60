"""Reads each line of a statement on its own: day, sum, payer and text, or what is wrong with it."""

from __future__ import annotations

import unicodedata
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.books.bank_lines import (
    LONGEST_PAYER,
    LONGEST_TEXT,
    ColumnsChosen,
    Reading,
    StatementLine,
)
from quotes.imports.bank.figures import day_of, sum_of
from quotes.imports.bank.grid import Grid, GridRow
from quotes.imports.bank.ways import way_column, way_of
from quotes.imports.faults import RowFault, shown

SHEET = "Statement"


EARLIEST = date(1990, 1, 1)


AHEAD_DAYS = 31
"""Banks date some payments by their value day, which lies a little ahead."""


ORDERS = {
    "ymd": to_say("year-month-day"),
    "dmy": to_say("day.month.year"),
    "mdy": to_say("month/day/year"),
}


def cell_at(row: GridRow, place: int | None) -> str:
    return row.cells[place].strip() if place is not None and place < len(row.cells) else ""


class LineReader:
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
        text = " ".join(cell_at(row, place) for place in self.columns.text)
        payer = _plain(cell_at(row, self.columns.payer))
        return StatementLine(row.line, day, amount, payer[:LONGEST_PAYER], _plain(text)[:LONGEST_TEXT])

    def _day(self, row: GridRow, on: date) -> date | None:
        said, order = cell_at(row, self.columns.date), self.reading.date_order
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
                cell_at(row, self.columns.money_out),
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
        if place is None or not cell_at(row, place):
            return None
        amount = self._sum(row, place, decimals)
        if amount is not None and amount < ZERO and place == self.columns.money_in:
            self._fault(
                row, self._head(place), cell_at(row, place), say("is below nought"), say("a sum above nought")
            )
        return amount if amount is not None else ZERO

    def _sum(self, row: GridRow, place: int, decimals: int) -> Decimal | None:
        said, mark = cell_at(row, place), self.reading.decimal_mark
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
