"""A column that says which way money went, where sums bear no sign of their own: debit or credit."""

from __future__ import annotations

from catalogue.calc.search_key import search_key
from quotes.calc.books.bank_lines import ColumnsChosen
from quotes.imports.bank.figures import MARKS, sum_of
from quotes.imports.bank.grid import Grid, GridRow

CAME_IN = {"c", "cr", "credit", "in", "h", "haben", "bij", "entrada", "accredito", "deposit"}
WENT_OUT = {"d", "dr", "debit", "out", "s", "soll", "af", "salida", "addebito", "withdrawal"}
"""Without case and marks. From memory, no source."""


def way_column(grid: Grid, columns: ColumnsChosen) -> int | None:
    """The column of such words, where every sum is without a sign; None where there is none."""
    if columns.amount is None or any(_signed(_cell(row, columns.amount)) for row in grid.rows):
        return None
    taken = {columns.date, columns.amount, columns.payer, *columns.text}
    for place in range(len(grid.heads)):
        words = [search_key(_cell(row, place)) for row in grid.rows]
        if place not in taken and words and all(word in CAME_IN | WENT_OUT for word in words):
            return place
    return None


def way_of(row: GridRow, place: int | None) -> int:
    """+1 for money that came in, -1 for money that went out; +1 where no column says."""
    return -1 if place is not None and search_key(_cell(row, place)) in WENT_OUT else 1


def _cell(row: GridRow, place: int) -> str:
    return row.cells[place].strip() if 0 <= place < len(row.cells) else ""


def _signed(text: str) -> bool:
    """Whether a sum says by itself that money went out."""
    return any((amount := sum_of(text, mark, 3)) is not None and amount < 0 for mark in MARKS)
