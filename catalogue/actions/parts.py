"""Changes many parts at once, as a hand would one by one: checked together, then written and remembered."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User

from catalogue.actions.entries import Written, count_up, write_rows
from catalogue.actions.refused import ChecksFailed
from catalogue.actions.remembering import remember
from catalogue.calc.checks import check
from catalogue.calc.merge import differing
from catalogue.calc.rows.trade import PartRow
from catalogue.models import OwnValue, Part
from catalogue.queries.resolved import rows_as_written

KIND = "parts"
Owned = dict[str, dict[str, str | None]]
"""By part and field: where the workshop had its own value from before; None where it had none of its own."""


@dataclass(frozen=True, slots=True)
class PartEdit:
    """A part as it was and as it becomes."""

    was: PartRow
    becomes: PartRow

    @property
    def code(self) -> str:
        return self.was.number

    @property
    def fields(self) -> tuple[str, ...]:
        return differing(self.was, self.becomes)


def change_parts(*, edits: Sequence[PartEdit], by: User | None, now: datetime, source: str) -> Owned:
    """Write them and remember each field as one of the workshop's own, as it is done by hand.

    Call it inside a transaction that holds the catalogue. Gives what stood of own values before, for
    `give_back`. Raises ChecksFailed.
    """
    if not edits:
        return {}
    _check_all(edits)
    owned = _owned_before(edits)
    codes = [edit.code for edit in edits]
    rows = Part.objects.filter(code__in=codes).values_list("code", "version", "place")
    known = {code: (version + 1, place) for code, version, place in rows}
    write_rows(written={KIND: [Written(edit.becomes, *known[edit.code]) for edit in edits]})
    for edit in edits:
        remember(KIND, edit.was, edit.becomes, edit.fields, known[edit.code][0], source, by, now)
    count_up()
    return owned


def _check_all(edits: Sequence[PartEdit]) -> None:
    """The whole catalogue with these parts in it. Only faults that they bring are told."""
    rows = rows_as_written()
    changed = {edit.code: edit.becomes for edit in edits}
    parts = tuple(changed.get(part.number, part) for part in rows.parts)
    before = set(check(rows))
    after = check(rows.model_copy(update={"parts": parts}))
    if faults := [fault for fault in after if fault not in before]:
        raise ChecksFailed(faults)


def _owned_before(edits: Iterable[PartEdit]) -> Owned:
    fields = {edit.code: edit.fields for edit in edits}
    owned: Owned = {code: dict.fromkeys(names) for code, names in fields.items()}
    for own in OwnValue.objects.filter(kind=KIND, entry__in=fields):
        if own.field in owned[own.entry]:
            owned[own.entry][own.field] = own.source
    return owned


def give_back(owned: Owned) -> None:
    """Own values as they were before `change_parts`."""
    for code, fields in owned.items():
        for field, source in fields.items():
            rows = OwnValue.objects.filter(kind=KIND, entry=code, field=field)
            if source is None:
                rows.delete()
            else:
                rows.update(source=source)
