"""A workbook of the catalogue from its bytes to what it would do, with every fault told by its cell."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from catalogue.calc.book.moves import Clash, EntryMove
from catalogue.calc.said import say, to_say
from catalogue.models.choices import KINDS
from catalogue.queries.book.earlier import last_change
from catalogue.queries.book.plan import BookGiven, BookPlan, plan_of
from catalogue.queries.book.told import CellChange, cell_changes
from catalogue.queries.shapes import SHAPES
from quotes.imports.catalogue_book.rows import BookRows, fault_at, rows_in
from quotes.imports.catalogue_book.sheets import OpenedBook, opened
from quotes.imports.faults import RowFault, shown
from quotes.queries.catalogue_uses import uses

WHY = {
    "both": to_say("was changed here and meanwhile by somebody else as well: from “{was}” to “{now}”"),
    "gone": to_say("was taken out of the catalogue meanwhile"),
    "there": to_say("was entered by somebody else meanwhile, with other values"),
    "moved": to_say("was changed by somebody else meanwhile, so that it can't go unseen"),
    "unknown": to_say("was written out from another state of the catalogue than any that is known here"),
}
ALLOWED = to_say("as it stands in a workbook that is written out now")


@dataclass(frozen=True, slots=True)
class CheckedBook:
    """What was found. With a fault nothing can be taken in."""

    lines: int
    faults: tuple[RowFault, ...]
    given: BookGiven | None = None
    plan: BookPlan | None = None

    @property
    def sound(self) -> bool:
        return not self.faults

    @property
    def changes(self) -> tuple[CellChange, ...]:
        """Every cell that would change."""
        return tuple(one for move in self.moves for one in cell_changes(move))

    @property
    def moves(self) -> tuple[EntryMove, ...]:
        return self.plan.moves if self.plan else ()

    @property
    def stays(self) -> tuple[EntryMove, ...]:
        """Entries of which somebody else changed something meanwhile, which stays."""
        return tuple(move for move in self.moves if move.theirs)

    @property
    def counted(self) -> list[tuple[str, int, int, int]]:
        """The same with each kind in words."""
        return [(str(KINDS.get(kind, kind)), *counts) for kind, *counts in self.counts]  # type: ignore[misc]

    @property
    def counts(self) -> list[tuple[str, int, int, int]]:
        """By kind: how many entries are added, changed, taken out."""
        found = Counter((move.kind, _sort(move)) for move in self.moves)
        return [
            (kind, found[kind, "added"], found[kind, "changed"], found[kind, "removed"])
            for kind in SHAPES
            if any(found[kind, sort] for sort in ("added", "changed", "removed"))
        ]


def _sort(move: EntryMove) -> str:
    if move.before is None:
        return "added"
    return "changed" if move.after is not None else "removed"


def check_book(content: bytes) -> CheckedBook:
    """What the workbook would do now. FileFault where it can't be read as one of ours."""
    try:
        return _held_against(*_read_once(content))
    except _Unsound as unsound:
        return unsound.checked


def check_opened(book: OpenedBook) -> CheckedBook:
    """The same of what was opened already."""
    try:
        return _held_against(book, _rows(book))
    except _Unsound as unsound:
        return unsound.checked


class _Unsound(Exception):
    """Cells or rows have faults, so that nothing more can be said."""

    def __init__(self, checked: CheckedBook) -> None:
        self.checked = checked


@lru_cache(maxsize=2)
def _read_once(content: bytes) -> tuple[OpenedBook, BookRows]:
    """A workbook is read when it is handed in, shown and taken in; a sound one has no words that are said."""
    book = opened(content)
    return book, _rows(book)


def _rows(book: OpenedBook) -> BookRows:
    if book.faults:
        raise _Unsound(CheckedBook(book.count, book.faults))
    found = rows_in(book)
    if found.faults:
        raise _Unsound(CheckedBook(book.count, tuple(found.faults)))
    return found


def _held_against(book: OpenedBook, found: BookRows) -> CheckedBook:
    given = BookGiven(found.rows, book.marks)
    plan = plan_of(given, uses)
    faults = [*_clashing(plan, found), *_faulty(plan, found)]
    return CheckedBook(book.count, tuple(faults), given, plan)


def _faulty(plan: BookPlan, found: BookRows) -> Iterator[RowFault]:
    for fault in plan.faults:
        yield fault_at(found, fault.kind, fault.entry, fault.field, fault.reason)


def _clashing(plan: BookPlan, found: BookRows) -> Iterator[RowFault]:
    for clash in plan.clashes:
        for field in clash.fields or ("",):
            yield _clash_fault(clash, field, found)


def _clash_fault(clash: Clash, field: str, found: BookRows) -> RowFault:
    fault = fault_at(found, clash.kind, clash.code, field, "")
    last = last_change(clash.kind, clash.code, field)
    values: Mapping[str, str] = {
        "was": shown(str(last.was)) if last else "",
        "now": shown(str(last.became)) if last else "",
    }
    reason = say(WHY[clash.why], **values)
    if last and last.by:
        reason = say(
            "{reason} ({who}, {day})", reason=reason, who=last.by.get_full_name(), day=f"{last.at:%Y-%m-%d}"
        )
    return RowFault(fault.sheet, fault.line, fault.column, fault.value, reason, say(ALLOWED))
