"""Three states of each entry laid side by side: as it was written out, as it is now, as the workbook says.

What only the workbook changed is taken; what only somebody else changed meanwhile stays. Where both changed
one field, or one took out what the other changed, there is a clash, and a clash is never settled by guessing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.book.marks import fields_apart, mark_of
from catalogue.calc.rows.kinds import Row

Why = Literal["both", "gone", "there", "moved", "unknown"]
"""Both changed it; gone meanwhile; entered meanwhile; changed meanwhile, taken out here; from elsewhere."""
Rows = Mapping[str, Row]


@dataclass(frozen=True, slots=True)
class EntryMove:
    """What becomes of one entry. No `before`: it is new; no `after`: it goes."""

    kind: str
    code: str
    before: Row | None
    after: Row | None
    fields: tuple[str, ...] = ()
    theirs: tuple[str, ...] = ()
    """Fields that somebody else changed meanwhile, which stay as they are now."""


@dataclass(frozen=True, slots=True)
class Clash:
    """What can't be taken in because the catalogue has moved since the workbook was written out."""

    kind: str
    code: str
    why: Why
    fields: tuple[str, ...] = ()


Earlier = Callable[[str, Row, str], Row | None]
"""The row of that kind as it was when it bore the mark; None where it never did."""


def moves_of(
    kind: str, given: Rows, now: Rows, marks: Mapping[str, str], was: Earlier
) -> Iterator[EntryMove | Clash]:
    """What a workbook does to one kind. `marks` are those of the rows when it was written out."""
    for code, row in given.items():
        mark, present = marks.get(code), now.get(code)
        if mark is None:
            yield from _entered(kind, code, row, present)
        elif mark_of(row) != mark:
            yield from _edited(kind, code, row, present, mark, was)
    for code, mark in marks.items():
        present = now.get(code)
        if code not in given and present is not None:
            if mark_of(present) == mark:
                yield EntryMove(kind, code, present, None)
            else:
                yield Clash(kind, code, "moved")


def _entered(kind: str, code: str, row: Row, present: Row | None) -> Iterator[EntryMove | Clash]:
    if present is None:
        yield EntryMove(kind, code, None, row)
    elif fields_apart(present, row):
        yield Clash(kind, code, "there")


def _edited(
    kind: str, code: str, row: Row, present: Row | None, mark: str, was: Earlier
) -> Iterator[EntryMove | Clash]:
    if present is None:
        yield Clash(kind, code, "gone")
        return
    if mark_of(present) == mark:
        yield _taken(kind, code, present, row, fields_apart(present, row))
        return
    if not (apart := fields_apart(present, row)):
        return
    base = was(kind, present, mark)
    if base is None:
        yield Clash(kind, code, "unknown")
        return
    mine, theirs = fields_apart(base, row), fields_apart(base, present)
    both = tuple(field for field in mine if field in theirs and field in apart)
    if both:
        yield Clash(kind, code, "both", both)
        return
    fields = tuple(field for field in mine if field in apart)
    if fields:
        yield _taken(kind, code, present, row, fields, theirs)


def _taken(
    kind: str, code: str, present: Row, row: Row, fields: tuple[str, ...], theirs: tuple[str, ...] = ()
) -> EntryMove:
    """Only what is different is laid over the row: what a spreadsheet rounded stays as it was kept."""
    after = present.model_copy(update={field: getattr(row, field) for field in fields})
    return EntryMove(
        kind, code, present, after, fields, tuple(field for field in theirs if field not in fields)
    )
