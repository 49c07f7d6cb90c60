"""What a workbook would do to the catalogue as it is now, with everything that stands in its way."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.calc.book.marks import plain
from catalogue.calc.book.moves import Clash, EntryMove, moves_of
from catalogue.calc.checks import check
from catalogue.calc.fault import Fault
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say
from catalogue.queries.book.earlier import earlier
from catalogue.queries.book.written import rows_of_kind
from catalogue.queries.resolved import rows_as_written
from catalogue.queries.rows import EmptyCatalogueError
from catalogue.queries.shapes import SHAPES

Uses = Callable[[str, Collection[str]], Mapping[str, str]]
"""Of these codes of a kind, those that something beyond the catalogue refers to, and what that is."""


@dataclass(frozen=True, slots=True)
class BookGiven:
    """What a workbook says: its rows, and the catalogue that it was written out from."""

    rows: Mapping[str, Mapping[str, Row]]
    marks: Mapping[tuple[str, str], str]


@dataclass(frozen=True, slots=True)
class BookPlan:
    """What it would do. With a clash or a fault it does nothing."""

    at: str
    """The catalogue's version that it was worked out on."""
    moves: tuple[EntryMove, ...]
    clashes: tuple[Clash, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def sound(self) -> bool:
        return not self.clashes and not self.faults

    @property
    def added(self) -> Sequence[EntryMove]:
        return [move for move in self.moves if move.before is None]

    @property
    def changed(self) -> Sequence[EntryMove]:
        return [move for move in self.moves if move.before is not None and move.after is not None]

    @property
    def removed(self) -> Sequence[EntryMove]:
        return [move for move in self.moves if move.after is None]

    @property
    def digest(self) -> str:
        """Tells what was looked at from what would be done now."""
        told = repr([(move.kind, move.code, move.fields, move.after) for move in self.moves])
        return hashlib.sha256(told.encode()).hexdigest()


def plan_of(given: BookGiven, used: Uses) -> BookPlan:
    """Everything that the workbook would do now."""
    try:
        rows = rows_as_written()
    except EmptyCatalogueError:
        return _first(given)
    found: list[EntryMove | Clash] = []
    for kind, shape in SHAPES.items():
        now = {shape.code_of(row): row for row in rows_of_kind(rows, kind)}
        marks = {code: mark for (of, code), mark in given.marks.items() if of == kind}
        found += moves_of(kind, given.rows[kind], now, marks, earlier)
    moves = tuple(one for one in found if isinstance(one, EntryMove))
    clashes = tuple(one for one in found if isinstance(one, Clash))
    faults = [*_not_here(moves), *_renamed(moves), *_still_used(moves, used)]
    if moves and not faults:
        faults += _contradictions(rows, moves)
    return BookPlan(rows.version, moves, clashes, tuple(faults))


def _first(given: BookGiven) -> BookPlan:
    """The whole catalogue into an empty database."""
    moves = tuple(
        EntryMove(kind, code, None, row) for kind, rows in given.rows.items() for code, row in rows.items()
    )
    return BookPlan("", moves, faults=check(together(None, moves)))


def _contradictions(rows: CatalogueRows, moves: Sequence[EntryMove]) -> list[Fault]:
    """What would not go together afterwards, and goes together now."""
    before = set(check(rows))
    return [fault for fault in check(together(rows, moves)) if fault not in before]


def together(rows: CatalogueRows | None, moves: Sequence[EntryMove]) -> CatalogueRows:
    """The catalogue as it would be."""
    whole: dict[str, Any] = {}
    for kind, shape in SHAPES.items():
        present = {shape.code_of(row): row for row in (rows_of_kind(rows, kind) if rows else ())}
        for move in moves:
            if move.kind == kind and move.after is None:
                present.pop(move.code)
            elif move.kind == kind and move.after is not None:
                present[move.code] = move.after
        whole[kind] = tuple(present.values())
    return CatalogueRows.model_construct(**{**whole, "basis": whole["basis"][0]})


def _not_here(moves: Sequence[EntryMove]) -> Iterator[Fault]:
    """What is not changed by way of a workbook."""
    for move in moves:
        if move.kind == "policies":
            reason = say("habits are there to read; the workshop's own are in its settings")
            yield Fault(move.kind, move.code, "", reason)
        elif move.kind == "basis" and (move.before is None or move.after is None):
            yield Fault(move.kind, move.code, "", say("there is one such line, no more and no fewer"))
        elif move.kind == "basis" and "currency" in move.fields:
            reason = say("the currency of every price is changed by loading the catalogue in another")
            yield Fault(move.kind, move.code, "currency", reason)


def _renamed(moves: Sequence[EntryMove]) -> Iterator[Fault]:
    """Entries that went and came back under another code."""
    gone = {
        _without_code(move.kind, move.before): move.code
        for move in moves
        if move.before is not None and move.after is None
    }
    for move in moves:
        if move.before is None and move.after is not None:
            was = gone.get(_without_code(move.kind, move.after))
            if was:
                reason = say("a code never changes, and this entry's was {code}", code=repr(was))
                yield Fault(move.kind, move.code, SHAPES[move.kind].columns["code"], reason)


def _without_code(kind: str, row: Row) -> str:
    return repr((kind, plain(row.model_dump(exclude={SHAPES[kind].columns["code"]}))))


def _still_used(moves: Sequence[EntryMove], used: Uses) -> Iterator[Fault]:
    for kind in SHAPES:
        codes = [move.code for move in moves if move.kind == kind and move.after is None]
        if codes:
            for code, by in used(kind, codes).items():
                yield Fault(kind, code, "", say("can't go: {what} refers to it", what=by))
