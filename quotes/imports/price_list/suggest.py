"""How a price list might be read: as the supplier's last one where its heads are there, else as it looks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

from catalogue.calc.price_list.reading import Column, Reading
from catalogue.calc.said import say
from quotes.imports.faults import FileFault
from quotes.imports.price_list.guess import content_columns, guessed_currency, price_lines
from quotes.imports.price_list.heads import LOOKED_AT, found_heads, heads_at, named_columns
from quotes.imports.price_list.limits import Line
from quotes.imports.price_list.prices import guessed_mark
from quotes.imports.price_list.refused_file import has_reasons
from quotes.imports.price_list.rows import RowReader
from quotes.imports.price_list.sample import SampleLine, Suggested, read_line, told
from quotes.imports.price_list.source import Source, opened
from quotes.imports.price_list.workbook import FirstLines

FIRST = 1000
"""So many lines are looked at."""
SHOWN = 12
"""So many are shown below the heads."""


def suggest(
    content: bytes, name: str, remembered: Reading | None = None, kept: FirstLines | None = None
) -> Suggested:
    """How the file might be read. FileFault where it can't be read at all.

    A workbook's first lines are taken from what is `kept` of it, or put there.
    """
    for last in _looser(remembered):
        with suppress(FileFault):
            source, lines = _first(content, last, kept)
            if found := _as_last(source, lines, last):
                return _suggested(source, lines, found, known=True, cautions=_unread(lines, found))
    source, lines = _first(content, Reading(), kept)
    found = _as_it_looks(source, lines)
    changed = remembered is not None and bool(remembered.columns)
    caution = say("The columns are not named as in the supplier's last list: look at each.")
    return _suggested(source, lines, found, cautions=(caution,) if changed else ())


def _unread(lines: Sequence[Line], last: Reading) -> tuple[str, ...]:
    """A caution where heads name columns that the last list did not have, or that were not chosen then."""
    heads = heads_at(lines, last.head_line, last.head_lines)
    free = [
        heads[place]
        for column, place in named_columns(heads).items()
        if column not in last.columns and place not in last.columns.values()
    ]
    if not free:
        return ()
    return (say("As with the last list, these columns are not read: {heads}.", heads=", ".join(free)),)


def look(content: bytes, reading: Reading, kept: FirstLines | None = None) -> Suggested:
    """The file as somebody chose to read it, what is left open found out from it."""
    source, lines = _first(content, reading, kept)
    return _suggested(source, lines, _completed(source, lines, reading))


def _looser(remembered: Reading | None) -> Iterator[Reading]:
    """The last reading as it was, then for a file that was saved otherwise; never by its character set."""
    if remembered is not None and remembered.columns:
        yield remembered.model_copy(update={"charset": ""})
        yield remembered.model_copy(update={"charset": "", "separator": "", "sheet": ""})


def _first(content: bytes, reading: Reading, kept: FirstLines | None) -> tuple[Source, list[Line]]:
    with opened(content, reading, FIRST, kept) as source:
        lines = list(source.lines)
    if not lines:
        raise FileFault(
            say("There is nothing in the file. Allowed is a list with one line for each article.")
        )
    return source, lines


def _as_last(source: Source, lines: Sequence[Line], last: Reading) -> Reading | None:
    """The supplier's last reading, its columns found again by their heads; None where one is gone."""
    if not last.head_line:
        width = max(len(cells) for _, cells in lines)
        fits = last.columns and max(last.columns.values()) < width
        return _completed(source, lines, last) if fits else None
    wanted = {column: head for column, head in last.heads.items() if column in last.columns}
    for first in _nearest(lines, last.head_line):
        heads = heads_at(lines, first, last.head_lines)
        if wanted and all(head in heads for head in wanted.values()):
            columns = {
                column: place
                if place < len(heads) and heads[place] == wanted.get(column)
                else heads.index(wanted[column])
                for column, place in last.columns.items()
                if column in wanted
            }
            return _completed(source, lines, last.model_copy(update={"head_line": first, "columns": columns}))
    return None


def _nearest(lines: Sequence[Line], line: int) -> Iterator[int]:
    """The lines in which the heads may stand, that of the last list before the others."""
    yield line
    yield from (number for number, _ in lines[:LOOKED_AT] if number != line)


def _as_it_looks(source: Source, lines: Sequence[Line]) -> Reading:
    head_line, head_lines = found_heads(lines, price_lines(lines))
    heads = heads_at(lines, head_line, head_lines)
    columns = named_columns(heads)
    below = [cells for number, cells in lines if number >= head_line + head_lines or not head_line]
    columns = content_columns(below, columns)
    reading = Reading(head_line=head_line, head_lines=head_lines, columns=columns)
    prices = _texts(lines, reading, "cost") + _texts(lines, reading, "list_price")
    currency = guessed_currency(heads, prices, _texts(lines, reading, "currency"))
    return _completed(source, lines, reading.model_copy(update={"currency": currency}))


def _completed(source: Source, lines: Sequence[Line], reading: Reading) -> Reading:
    """The reading with what the file itself says of what was left open."""
    heads = heads_at(lines, reading.head_line, reading.head_lines)
    named: dict[Column, str] = {
        column: heads[place] for column, place in reading.columns.items() if place < len(heads)
    }
    texts = _texts(lines, reading, "cost") + _texts(lines, reading, "list_price")
    mark, _ = guessed_mark(texts, source.separator)
    update = {
        "sheet": source.sheet.name if source.sheet else "",
        "charset": source.charset,
        "separator": source.separator,
        "decimal_mark": reading.decimal_mark or (mark if texts else "."),
        "heads": named,
    }
    return reading.model_copy(update=update)


def _texts(lines: Sequence[Line], reading: Reading, column: Column) -> list[str]:
    """The cells of a column that are texts, below the heads."""
    place = reading.columns.get(column)
    if place is None:
        return []
    last = reading.head_line + reading.head_lines - 1 if reading.head_line else 0
    cells = [line[place] for number, line in lines if number > last and place < len(line)]
    return [cell for cell in cells if type(cell) is str and cell.strip()]


def _suggested(
    source: Source,
    lines: Sequence[Line],
    reading: Reading,
    *,
    known: bool = False,
    cautions: tuple[str, ...] = (),
) -> Suggested:
    last = reading.head_line + reading.head_lines - 1 if reading.head_line else 0
    texts = _texts(lines, reading, "cost") + _texts(lines, reading, "list_price")
    mark, seen = guessed_mark(texts, source.separator)
    if seen and texts and mark != reading.decimal_mark and any(mark in text for text in texts):
        cautions += (say("Most prices have “{mark}” before their decimals: choose it.", mark=mark),)
    elif not seen and texts:
        cautions += (say("No price shows what marks its decimals: look at the figures below."),)
    above = tuple(SampleLine(line, told(cells)) for line, cells in lines if line <= last)
    if any(has_reasons(one.cells) for one in above):
        cautions += (say("These rows were refused before: what the file leaves out is not taken for gone."),)
    return Suggested(
        reading,
        heads_at(lines, reading.head_line, reading.head_lines),
        above,
        tuple(_read(lines, last, reading, formulas=source.sheet is not None)),
        source.sheet.names if source.sheet else (),
        known,
        cautions,
    )


def _read(lines: Sequence[Line], last: int, reading: Reading, *, formulas: bool) -> Iterator[SampleLine]:
    """The first lines below the heads, and what is read from them where the needed columns are chosen."""
    heads = heads_at(lines, reading.head_line, reading.head_lines)
    below = [one for one in lines if one[0] > last][:SHOWN]
    for line, cells in below:
        if reading.missing:
            yield SampleLine(line, told(cells))
            continue
        reader = RowReader(reading, heads, formulas=formulas)
        reader.take(line, cells)
        yield read_line(line, cells, reader)
