"""A supplier's price list: bytes to checked rows, as it was chosen to be read. No database."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import chain, islice

from catalogue.calc.price_list.reading import Reading, ReadList
from catalogue.calc.said import say
from quotes.imports.faults import FileFault
from quotes.imports.price_list.after import whole_list
from quotes.imports.price_list.formats import shown_numbers
from quotes.imports.price_list.heads import heads_at
from quotes.imports.price_list.kinds import Kinds
from quotes.imports.price_list.limits import Line
from quotes.imports.price_list.rows import RowReader
from quotes.imports.price_list.source import Source, opened

AT_ONCE = 2000
"""Lines that are read before `tell` is told."""


def read_price_list(
    content: bytes,
    name: str,
    reading: Reading,
    *,
    tell: Callable[[int], None] = lambda lines: None,
) -> ReadList:
    """Every row of the file, sound or refused. FileFault where it can't be read, or lacks a needed column.

    `name` is the file's, and only said. `tell` is told from time to time how many lines are read.
    """
    if reading.missing:
        raise FileFault(say("Choose the columns of part number and price first."))
    with opened(content, reading) as source, _rubbish_left_lying():
        heads, lines = _below_heads(source, reading)
        rows = RowReader(reading, heads, 0 if source.sheet else len(heads), formulas=source.sheet is not None)
        kinds = Kinds(reading.columns, heads)
        while some := list(islice(lines, AT_ONCE)):
            kinds.see(some)
            rows.take_many(some)
            tell(rows.lines)
    shown = shown_numbers(content, source.sheet.name, rows.number) if rows.numeric and source.sheet else {}
    sound = whole_list(rows, shown)
    return ReadList(sound, tuple(rows.rejected), rows.lines, rows.passed_over, tuple(kinds.cautions()), heads)


@contextmanager
def _rubbish_left_lying() -> Iterator[None]:
    """Without looking for cycles: rows make none, and looking takes as long again as reading them."""
    looked = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looked:
            gc.enable()


def _below_heads(source: Source, reading: Reading) -> tuple[tuple[str, ...], Iterator[Line]]:
    """The heads, and the lines below them."""
    last = reading.head_line + reading.head_lines - 1 if reading.head_line else 0
    over: list[Line] = []
    for one in source.lines:
        if one[0] > last:
            return heads_at(over, reading.head_line, reading.head_lines), chain([one], source.lines)
        over.append(one)
    return heads_at(over, reading.head_line, reading.head_lines), iter(())
