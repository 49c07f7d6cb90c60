"""What a workbook changes, cell by cell: before and after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.calc.book.marks import plain, to_fifteen
from catalogue.calc.book.moves import EntryMove
from catalogue.calc.book.values import Cell
from catalogue.calc.rows.kinds import Row
from catalogue.queries.book.layout import PLACES, Column, SheetLayout, sheets_of
from catalogue.queries.book.lines import lines_of
from catalogue.queries.book.written import cell_of
from catalogue.queries.shapes.shape import Line


@dataclass(frozen=True, slots=True)
class CellChange:
    """One cell, or a whole line that comes or goes: then `head` is empty."""

    sheet: str
    line: str
    """What tells the line from the others: its code, or its entry and what it is about."""
    head: str
    before: str
    after: str


def cell_changes(move: EntryMove) -> Iterator[CellChange]:
    """Each cell that the move changes; of an entry that comes or goes its own line, and no more."""
    main, *others = sheets_of(move.kind)
    if move.before is None or move.after is None:
        row = move.before or move.after
        assert row is not None
        (line,) = lines_of(main, [row])
        told = _in_short(main, line)
        before, after = (told, "") if move.after is None else ("", told)
        yield CellChange(main.name, move.code, "", before, after)
        return
    (was,), (now,) = lines_of(main, [move.before]), lines_of(main, [move.after])
    yield from _cells(main, move.code, was, now, main.columns)
    for sheet in others:
        yield from _line_changes(sheet, move.before, move.after)


def _line_changes(sheet: SheetLayout, before: Row, after: Row) -> Iterator[CellChange]:
    keys = _told_apart_by(sheet)
    was, now = _by_key(sheet, before, keys), _by_key(sheet, after, keys)
    for key in dict.fromkeys((*was, *now)):
        words = ", ".join(str(value) for value in key if value not in (None, ""))
        old, new = was.get(key), now.get(key)
        if old is not None and new is not None:
            yield from _cells(sheet, words, old, new, sheet.columns)
        else:
            told = (_in_short(sheet, old) if old else "", _in_short(sheet, new) if new else "")
            yield CellChange(sheet.name, words, "", *told)


def _told_apart_by(sheet: SheetLayout) -> tuple[str, ...]:
    """The columns that tell the lines of one entry apart."""
    if sheet.once:
        return sheet.once[0]
    places = [column.key for column in sheet.columns if column.key in ("role", "for_roller_rod", *PLACES)]
    return (sheet.owner.key, *places)


def _by_key(sheet: SheetLayout, row: Row, keys: Sequence[str]) -> Mapping[tuple[Any, ...], Line]:
    return {tuple(line[key] for key in keys): line for line in lines_of(sheet, [row])}


def _cells(
    sheet: SheetLayout, words: str, was: Line, now: Line, columns: Sequence[Column]
) -> Iterator[CellChange]:
    for column in columns:
        old, new = was[column.key], now[column.key]
        if plain(old) != plain(new):
            told = (_said(cell_of(column, old)), _said(cell_of(column, new)))
            yield CellChange(sheet.name, words, column.head, *told)


def _in_short(sheet: SheetLayout, line: Line) -> str:
    """A whole line in a few words."""
    cells = [
        f"{column.head} {_said(cell)}"
        for column in sheet.columns[1:]
        if column.key not in PLACES and (cell := cell_of(column, line[column.key])) is not None
    ]
    return "; ".join(cells)


def _said(cell: Cell) -> str:
    if isinstance(cell, float):
        return f"{to_fifteen(cell):f}"
    return "" if cell is None else str(cell)
