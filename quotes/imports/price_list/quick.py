"""The usual cell of each column, read many at a time; what is not usual is left to the careful reader.

A list has a hundred thousand rows and more, and hardly a cell of them is out of the ordinary. What is read
here is what the careful reader makes of it too, and `ASK` stands for every cell that it has to look at.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import compress, repeat
from typing import Any, Final

from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.reading import Column, DecimalMark, Reading
from catalogue.calc.price_list.units import PACK, Unit
from quotes.imports.cell_values import BadCell
from quotes.imports.price_list.limits import Figure, Line, Raw
from quotes.imports.price_list.prices import MOST
from quotes.imports.price_list.texts import LONGEST_NAME, LONGEST_NUMBER

USUAL_NUMBER = re.compile(r"[0-9/.\-]*[A-Z](?: ?[A-Z0-9/.\-_])*|[0-9]+", re.ASCII)
"""Figures, or capital letters among them: what a spreadsheet makes of a number has small ones, or none."""
WHOLE = re.compile(r"([1-9][0-9]{0,14})\.0", re.ASCII)
"""A whole number of the spreadsheet's that has lost no digit."""
FIGURE = re.compile(r"[0-9]{1,7}\.[0-9]{1,4}", re.ASCII)
USUAL_PRICE = {
    ".": re.compile(r"[0-9]{1,7}(?:\.[0-9]{1,4})?", re.ASCII),
    ",": re.compile(r"[0-9]{1,7}(?:,[0-9]{1,4})?", re.ASCII),
}
GTIN_DIGITS = 13
"""The usual length. So many times 48, the code of a nought, fall out of the sum by themselves."""
MOST_KEPT = 10_000
ASK: Final[Any] = object()
NOTHING: Mapping[Column, object] = {
    "number": "",
    "name": "",
    "cost": None,
    "list_price": None,
    "gtin": "",
    "unit": "",
    "pack": 1,
    "lead_days": None,
    "superseded_by": "",
}
"""What a column says that is not chosen, in the order in which a row takes them."""
Quick = Callable[[Sequence[Raw]], list[Any]]


def quick_readers(reading: Reading, careful: Mapping[Column, Callable[[Raw], Any]]) -> Mapping[Column, Quick]:
    """What reads many cells of each column."""
    price = prices(reading.decimal_mark)
    return {
        "number": numbers,
        "name": names,
        "cost": price,
        "list_price": lambda cells: _or_blank(cells, price(cells), None),
        "gtin": gtins,
        "unit": _known(careful["unit"], _plain_unit, ""),
        "pack": _known(careful["pack"], lambda pack: pack, 1),
        "priced_for": _known(careful["priced_for"], lambda count: 1 if count == 1 else ASK, 1),
        "lead_days": _known(careful["lead_days"], lambda days: days, None),
        "superseded_by": lambda cells: ["" if raw == "" else ASK for raw in cells],
        "currency": _known(careful["currency"], lambda currency: currency, ""),
    }


def numbers(cells: Sequence[Raw]) -> list[Any]:
    """Part numbers of capital letters, figures and marks, and whole numbers."""
    usual, whole = USUAL_NUMBER.fullmatch, WHOLE.fullmatch
    return [
        (raw if usual(raw) and len(raw) <= LONGEST_NUMBER else ASK)
        if type(raw) is str
        else found[1]
        if type(raw) is Figure and (found := whole(raw))
        else ASK
        for raw in cells
    ]


def names(cells: Sequence[Raw]) -> list[Any]:
    """Names that can be printed."""
    return [
        text
        if type(raw) is str
        and (text := " ".join(raw.split())).isprintable()
        and len(text) <= LONGEST_NAME
        and text[:1] != "="
        else ASK
        for raw in cells
    ]


def prices(mark: DecimalMark) -> Quick:
    """Figures of the spreadsheet with at most four decimals, or bare ones in a text."""
    comma = mark == ","
    usual, figure = USUAL_PRICE["," if comma else "."].fullmatch, FIGURE.fullmatch

    def read(cells: Sequence[Raw]) -> list[Any]:
        found = [
            Decimal(raw)
            if type(raw) is Figure and figure(raw)
            else Decimal(raw.replace(",", ".") if comma else raw)
            if type(raw) is str and usual(raw)
            else ASK
            for raw in cells
        ]
        return [amount if amount is not ASK and amount and amount <= MOST else ASK for amount in found]

    return read


def gtins(cells: Sequence[Raw]) -> list[Any]:
    """GTINs of thirteen digits, and blanks."""
    return [
        raw
        if raw == ""
        or (
            type(raw) is str
            and len(raw) == GTIN_DIGITS
            and raw.isascii()
            and raw.isdigit()
            and (sum((codes := raw.encode())[::2]) + 3 * sum(codes[1::2])) % 10 == 0
        )
        else ASK
        for raw in cells
    ]


def _plain_unit(unit: Unit) -> object:
    return unit.name if unit.priced_for == unit.pack == 1 and unit.name != PACK else ASK


def _or_blank(cells: Sequence[Raw], found: list[Any], nothing: object) -> list[Any]:
    return [nothing if raw == "" else value for raw, value in zip(cells, found, strict=True)]


def _known(careful: Callable[[Raw], Any], usable: Callable[[Any], Any], nothing: object) -> Quick:
    """For columns that say the same few things again and again: each is read once."""
    known: dict[Raw, Any] = {"": nothing}

    def read(cells: Sequence[Raw]) -> list[Any]:
        for raw in set(cells).difference(known):
            try:
                known[raw] = usable(careful(raw)) if type(raw) in (str, Figure) else ASK
            except BadCell:
                known[raw] = ASK
        found = [known[raw] for raw in cells]
        if len(known) > MOST_KEPT:
            known.clear()
            known[""] = nothing
        return found

    return read


class QuickRows:
    """Many lines at once. `to_ask`: the places of those that the careful reader has to look at."""

    def __init__(
        self, lines: Sequence[Line], columns: Mapping[Column, int], readers: Mapping[Column, Quick]
    ) -> None:
        self.lines = [line for line, _ in lines]
        self.cells = {column: [cells[place] for _, cells in lines] for column, place in columns.items()}
        self.found = {column: readers[column](cells) for column, cells in self.cells.items()}
        asked = {place for found in self.found.values() for place, value in enumerate(found) if value is ASK}
        self.to_ask = sorted(asked)
        self.sound = [place not in asked for place in range(len(lines))]

    def rows(self) -> Iterator[Listed]:
        """The sound ones, what was left out as a row leaves it out."""
        values = [self._values(column, nothing) for column, nothing in NOTHING.items()]
        return map(Listed, compress(self.lines, self.sound), *values)

    def numeric(self) -> Iterator[int]:
        """The sound ones whose number the spreadsheet holds as a number."""
        numbers = compress(self.cells["number"], self.sound)
        lines = compress(self.lines, self.sound)
        return (line for line, raw in zip(lines, numbers, strict=True) if type(raw) is Figure)

    def _values(self, column: Column, nothing: object) -> Iterator[Any]:
        return compress(self.found[column], self.sound) if column in self.found else repeat(nothing)
