"""How a price list might be read: as the supplier's last one where its heads are there, else as it looks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.price_list.reading import Column, Reading
from catalogue.calc.said import say, say_count, say_figure
from quotes.imports.faults import FileFault, shown
from quotes.imports.price_list.guess import content_columns, guessed_currency, price_lines
from quotes.imports.price_list.heads import LOOKED_AT, found_heads, heads_at, named_columns
from quotes.imports.price_list.limits import Line, Raw, raw_text
from quotes.imports.price_list.prices import guessed_mark
from quotes.imports.price_list.refused_file import has_reasons
from quotes.imports.price_list.rows import RowReader, fault_said
from quotes.imports.price_list.source import Source, opened
from quotes.imports.price_list.workbook import FirstLines

FIRST = 1000
"""So many lines are looked at."""
SHOWN = 12
"""So many are shown below the heads."""


@dataclass(frozen=True, slots=True)
class SampleLine:
    """One line as it stands in the file, and what is read from it: a row, a refusal, or neither."""

    line: int
    cells: tuple[str, ...]
    row: Listed | None = None
    refused: Rejected | None = None
    instead: str = ""
    """The number whose price it has, where it names no price of its own."""

    @property
    def refused_said(self) -> str:
        return fault_said(self.refused) if self.refused else ""

    @property
    def cost(self) -> str:
        return _figure(self.row.cost) if self.row and not self.instead else ""

    @property
    def list_price(self) -> str:
        return _figure(self.row.list_price) if self.row and self.row.list_price is not None else ""

    @property
    def also(self) -> str:
        """Unit, pack and the rest in one line."""
        if self.row is None:
            return ""
        if self.instead:
            return say("replaced by {number}, at its price", number=self.instead)
        row, said = self.row, [self.row.unit]
        if row.pack > 1:
            said.append(say("{count} in a pack", count=say_figure(row.pack, 0)))
        if row.lead_days is not None:
            said.append(say_count("{count} working day", "{count} working days", row.lead_days))
        if row.gtin:
            said.append(say("GTIN {gtin}", gtin=row.gtin))
        if row.superseded_by:
            said.append(say("replaced by {number}", number=row.superseded_by))
        return ", ".join(filter(None, said))


def _figure(amount: Decimal) -> str:
    """At least two decimals, and no nought behind them."""
    exponent = amount.normalize().as_tuple().exponent
    return say_figure(amount, max(2, -exponent if isinstance(exponent, int) else 2))


@dataclass(frozen=True, slots=True)
class Suggested:
    """A reading to look at, with what helps to judge it."""

    reading: Reading
    heads: tuple[str, ...]
    above: tuple[SampleLine, ...]
    """The filled lines above the heads, and the heads themselves."""
    sample: tuple[SampleLine, ...]
    """The first lines below."""
    sheets: tuple[str, ...] = ()
    known: bool = False
    """Whether it is read as the supplier's last list was."""
    cautions: tuple[str, ...] = ()

    @property
    def refused_before(self) -> bool:
        """Whether it holds the refused rows of another list: what it leaves out is not gone then."""
        return any(has_reasons(one.cells) for one in self.above)

    @property
    def width(self) -> int:
        return max((len(one.cells) for one in (*self.above, *self.sample)), default=0)

    @property
    def in_the_file(self) -> Iterator[tuple[SampleLine, bool, tuple[str, ...]]]:
        """Each line that is shown, whether it stands above the first row, and its cells, all of one width."""
        for one in (*self.above, *self.sample):
            yield one, one in self.above, one.cells + ("",) * (self.width - len(one.cells))


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
    above = tuple(SampleLine(line, _told(cells)) for line, cells in lines if line <= last)
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


def _told(cells: Sequence[Raw]) -> tuple[str, ...]:
    return tuple(shown(raw_text(raw)) for raw in cells)


def _read(lines: Sequence[Line], last: int, reading: Reading, *, formulas: bool) -> Iterator[SampleLine]:
    """The first lines below the heads, and what is read from them where the needed columns are chosen."""
    heads = heads_at(lines, reading.head_line, reading.head_lines)
    below = [one for one in lines if one[0] > last][:SHOWN]
    for line, cells in below:
        if reading.missing:
            yield SampleLine(line, _told(cells))
            continue
        reader = RowReader(reading, heads, formulas=formulas)
        reader.take(line, cells)
        yield _sample(line, cells, reader)


def _sample(line: int, cells: Sequence[Raw], reader: RowReader) -> SampleLine:
    """What the reader made of its only line."""
    told = _told(cells)
    for values, _ in reader.unpriced:
        row = Listed(line, values["number"], values.get("name") or "", Decimal(0))
        return SampleLine(line, told, row, instead=values["superseded_by"])
    return SampleLine(line, told, next(iter(reader.rows), None), next(iter(reader.rejected), None))
