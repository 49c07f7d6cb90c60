"""A drawing of bars with its table: what page and paper are told, one value for both."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString

from catalogue.calc.said import say
from quotes.calc.sheet.chance_values import HazardShare
from quotes.calc.sheet.values import Comparison, LeaveIt, Option

Way = LeaveIt | Option
"""One way of building, or of leaving it."""


def is_the_rest(share: HazardShare) -> bool:
    """Whether it is what stops engines beside the causes named; older sheets know it by its name."""
    return not share.component and (not share.state or share.name.lower().startswith("all else"))


def ways_of(comparison: Comparison) -> tuple[Way, ...]:
    """Leave it first, then the options in their own order."""
    return (comparison.leave_it, *comparison.options)


LEAVE_IT = "leave_it"
"""The address of leaving it, where that of an option is its tier."""


def address_of(way: Way) -> str:
    """By which name a way of building is asked for, where its figures open."""
    return way.tier if isinstance(way, Option) else LEAVE_IT


@dataclass(frozen=True, slots=True)
class Opens:
    """The words of one cell, with the way and the key by which they open to their parts."""

    words: str
    way: str
    key: str


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One part in the table: its name, a note, and the words under each way."""

    name: str
    note: str
    cells: tuple[str, ...]
    keys: tuple[tuple[str, str], ...] = ()
    """Of each cell the way and the key that it opens by."""

    @property
    def opens(self) -> tuple[Opens, ...]:
        """The cells for a page on which they open."""
        keys = self.keys or (("", ""),) * len(self.cells)
        return tuple(Opens(words, *key) for words, key in zip(self.cells, keys, strict=True))


@dataclass(frozen=True, slots=True)
class Figures:
    """`rows` hold what is drawn, `rest` what is only listed."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[FigureRow, ...]
    rest: tuple[FigureRow, ...]
    notes: tuple[str, ...]
    wide: SafeString
    narrow: SafeString

    @property
    def rest_words(self) -> str:
        """What opens the list of the others."""
        return say("{count} more parts, none of which runs out sooner", count=len(self.rest))
