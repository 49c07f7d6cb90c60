"""A drawing of bars with its table: what page and paper are told, one value for both."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString

from quotes.calc.sheet.values import Comparison, LeaveIt, Option

Way = LeaveIt | Option
"""One way of building, or of leaving it."""


def ways_of(comparison: Comparison) -> tuple[Way, ...]:
    """Leave it first, then the options in their own order."""
    return (comparison.leave_it, *comparison.options)


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One part in the table: its name, a note, and the words under each way."""

    name: str
    note: str
    cells: tuple[str, ...]


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
        return f"{len(self.rest)} more parts, none of which runs out sooner"
