"""Whether a column of a price list changes in its middle: figures above, words or dates from some line on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from operator import itemgetter

from catalogue.calc.price_list.reading import Column
from catalogue.calc.said import say, say_figure, to_say
from quotes.imports.price_list.limits import Figure, Line, MadeDate, Raw

LOOKED_AT: tuple[Column, ...] = ("number", "cost", "list_price", "gtin")
PRICES = ("cost", "list_price")
MANY = 10
"""So many cells of each kind, one after the other, are no accident."""
MOST_RUNS = 40
"""A column that changes more often is one of several kinds, not one that changes in its middle."""
SAID = {
    ("figures", "words"): to_say("From line {line} on “{column}” holds words where it held figures."),
    ("words", "figures"): to_say("From line {line} on “{column}” holds figures where it held words."),
    ("figures", "dates"): to_say("From line {line} on “{column}” holds dates where it held figures."),
    ("words", "dates"): to_say("From line {line} on “{column}” holds dates where it held words."),
    ("dates", "figures"): to_say("From line {line} on “{column}” holds figures where it held dates."),
    ("dates", "words"): to_say("From line {line} on “{column}” holds words where it held dates."),
}
Run = tuple[str, int, int]
"""A kind, the line at which it begins, and how many cells are of it without a break."""


class Kinds:
    """Looks at one lot of lines after another."""

    def __init__(self, columns: Mapping[Column, int], heads: Sequence[str]) -> None:
        self.heads = heads
        self.places = {column: columns[column] for column in LOOKED_AT if column in columns}
        self.runs: dict[Column, list[Run]] = {column: [] for column in self.places}

    def see(self, lines: Sequence[Line]) -> None:
        for column, place in self.places.items():
            if len(self.runs[column]) > MOST_RUNS:
                continue
            cells = [cells[place] if len(cells) > place else "" for _, cells in lines]
            types = set(map(type, cells))
            if types == {Figure}:
                self._run(column, "figures", lines[0][0], len(lines))
            elif types == {str} and column not in PRICES and "" not in cells:
                self._run(column, "words", lines[0][0], len(lines))
            else:
                numbered = zip(lines, cells, strict=True)
                self._look(column, [(line, raw) for (line, _), raw in numbered if raw != ""])

    def _look(self, column: Column, filled: Sequence[tuple[int, Raw]]) -> None:
        """At each cell, where they are not all alike."""
        prices = column in PRICES
        kinds = [(_kind(raw, prices), line) for line, raw in filled]
        for kind, some in groupby(kinds, itemgetter(0)):
            lines = [line for _, line in some]
            self._run(column, kind, lines[0], len(lines))

    def _run(self, column: Column, kind: str, line: int, count: int) -> None:
        runs = self.runs[column]
        if runs and runs[-1][0] == kind:
            runs[-1] = (kind, runs[-1][1], runs[-1][2] + count)
        else:
            runs.append((kind, line, count))

    def cautions(self) -> Iterable[str]:
        """A sentence for each change after which a column stays what it has become."""
        for column, runs in self.runs.items():
            if 1 < len(runs) <= MOST_RUNS and runs[-1][2] >= MANY and runs[-2][2] >= MANY:
                place = self.places[column]
                yield say(
                    SAID[runs[-2][0], runs[-1][0]],
                    line=say_figure(runs[-1][1], 0),
                    column=self.heads[place] if place < len(self.heads) else column,
                )


def _kind(raw: Raw, prices: bool) -> str:
    """In a CSV file all is text: there a price is a figure where it begins or ends with one."""
    if isinstance(raw, MadeDate):
        return "dates"
    if isinstance(raw, Figure):
        return "figures"
    text = raw.strip() if isinstance(raw, str) else ""
    return "figures" if prices and (text[:1].isdigit() or text[-1:].isdigit()) else "words"
