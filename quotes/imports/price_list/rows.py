"""The lines below the heads of a price list: each a sound row, a refused one, or passed over."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.price_list.reading import NEEDED, Column, Reading
from catalogue.calc.said import say
from quotes.imports.cell_values import BadCell
from quotes.imports.faults import shown
from quotes.imports.price_list.limits import Line, Raw, raw_text
from quotes.imports.price_list.quick import QuickRows, quick_readers
from quotes.imports.price_list.row_values import NAMES, BadRow, Values, convert, converts, listed, readers

Fault = tuple[Column, Raw, str, str]


class RowReader:
    """Takes one line after another. `rows` and `rejected` are what came of them."""

    def __init__(
        self, reading: Reading, heads: Sequence[str], most_cells: int = 0, *, formulas: bool = False
    ) -> None:
        """`most_cells`: a line of more is refused, if above nought. `formulas`: a blank cell may be one."""
        self.blank = say("is blank, or a formula without a result") if formulas else say("is blank")
        self.reading, self.heads, self.most_cells = reading, tuple(heads), most_cells
        read = readers(reading)
        self.columns = [(one, reading.columns[one], read[one]) for one in NAMES if one in reading.columns]
        self.quick = quick_readers(reading, read)
        self.by_pack = reading.priced_by_pack or reading.priced_for > 1
        self.number = reading.columns["number"]
        self.width = max(place + 1 for place in reading.columns.values())
        self.converts = converts(reading)
        self.rows: list[Listed] = []
        self.rejected: list[Rejected] = []
        self.numeric: set[int] = set()
        """Lines of those whose number the spreadsheet holds as a number."""
        self.unpriced: list[tuple[Values, list[Raw]]] = []
        """Rows without a price that name the number which took their place."""
        self.lines = self.passed_over = 0

    def take_many(self, lines: Sequence[Line]) -> None:
        """Filled lines of the file: the usual ones at once, each of the others by itself."""
        widths = {len(cells) for _, cells in lines}
        if self.by_pack or min(widths) < self.width or (self.most_cells and max(widths) > self.most_cells):
            for line, cells in lines:
                self.take(line, cells)
            return
        quick = QuickRows(lines, self.reading.columns, self.quick)
        for place in quick.to_ask:
            self.take(*lines[place])
        self.rows += quick.rows()
        self.numeric.update(quick.numeric())
        self.lines += len(lines) - len(quick.to_ask)

    def take(self, line: int, cells: list[Raw]) -> None:
        """One filled line of the file, carefully."""
        self.lines += 1
        if len(cells) < self.width:
            cells = cells + [""] * (self.width - len(cells))
        values: Values = {"line": line}
        faults: list[Fault] = []
        for column, place, read in self.columns:
            raw = cells[place]
            if raw != "":
                try:
                    values[column] = read(raw)
                except BadCell as bad:
                    if not isinstance(raw, str) or raw.strip():
                        faults.append((column, raw, bad.reason, bad.allowed))
        if self.most_cells and len(cells) > self.most_cells:
            faults += _too_many(cells, self.most_cells)
        if faults or "cost" not in values or "number" not in values:
            self._unsound(values, cells, faults)
            return
        try:
            if self.converts:
                convert(values, self.reading)
            self.rows.append(listed(values))
        except BadRow as bad:
            self.refuse(line, [(bad.column, bad.value, bad.reason, bad.allowed)], cells)
            return
        if type(cells[self.number]) is not str:
            self.numeric.add(line)

    def refuse(self, line: int, faults: Sequence[Fault], cells: Sequence[Raw]) -> None:
        """Refuse a row for these reasons, the first of which is its own."""
        column, raw, reason, allowed = faults[0]
        self.rejected.append(
            Rejected(
                line,
                self._head(column),
                shown(raw_text(raw)),
                reason,
                allowed,
                tuple(map(raw_text, cells)),
                tuple(self._said(line, *fault) for fault in faults[1:]),
            )
        )

    def _unsound(self, values: Values, cells: list[Raw], faults: list[Fault]) -> None:
        filled = len(values) - 1 + len(faults)
        if filled < len(NEEDED) or self._says_heads(cells):
            self.passed_over += 1
            return
        if not faults and "number" in values and values.get("superseded_by"):
            self.unpriced.append((values, cells))
            return
        blank = [one for one in NEEDED if one not in values and all(one != fault[0] for fault in faults)]
        faults += [(one, "", self.blank, say("it is needed on every row")) for one in blank]
        self.refuse(values["line"], faults, cells)

    def _says_heads(self, cells: list[Raw]) -> bool:
        """Whether the heads stand there once more, as on each page of a printed list."""
        places = [place for place in self.reading.columns.values() if place < len(self.heads)]
        return bool(self.heads) and all(
            raw_text(cells[place]).strip() == self.heads[place] for place in places
        )

    def _head(self, column: Column) -> str:
        place = self.reading.columns.get(column, len(self.heads))
        return (self.heads[place] if place < len(self.heads) else "") or say(NAMES[column])

    def _said(self, line: int, column: Column, raw: Raw, reason: str, allowed: str) -> str:
        return fault_said(Rejected(line, self._head(column), shown(raw_text(raw)), reason, allowed))


def fault_said(one: Rejected) -> str:
    """A refusal in one sentence."""
    if not one.value:
        return say("{column} {reason}; {allowed}", column=one.column, reason=one.reason, allowed=one.allowed)
    return say(
        "{column}: “{value}” {reason}; {allowed}",
        column=one.column,
        value=one.value,
        reason=one.reason,
        allowed=one.allowed,
    )


def _too_many(cells: Sequence[Raw], most: int) -> list[Fault]:
    beyond = [raw_text(raw) for raw in cells[most:] if raw_text(raw).strip()]
    if not beyond:
        return []
    return [
        (
            "number",
            beyond[0],
            say("stands under no heading: a separator or a quotation mark is not where it should be"),
            say("{count} columns", count=most),
        )
    ]
