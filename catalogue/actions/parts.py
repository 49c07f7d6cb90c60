"""Changes many parts at once, as a hand would one by one: checked together, then written and remembered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User

from catalogue.actions.changed import CardChange, card_changed
from catalogue.actions.entries import Written, count_up, write_rows
from catalogue.actions.load import plain
from catalogue.actions.refused import ChecksFailed
from catalogue.calc.checks import check
from catalogue.calc.merge import differing
from catalogue.calc.rows.trade import PartRow
from catalogue.models import Change, OwnValue, Part
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
    def fields(self) -> tuple[str, ...]:
        return differing(self.was, self.becomes)


def change_parts(*, edits: Sequence[PartEdit], by: User | None, now: datetime, source: str) -> Owned:
    """Write them and remember each field as one of the workshop's own; call it inside a transaction.

    Gives what stood of own values before, to be handed back by `give_back`. Raises ChecksFailed.
    """
    if not edits:
        return {}
    _check_all(edits)
    versions = _write(edits)
    owned = _remember_own(edits, by, now, source)
    _tell(edits, versions, by, now)
    count_up()
    return owned


def _check_all(edits: Sequence[PartEdit]) -> None:
    rows = rows_as_written()
    changed = {edit.was.number: edit.becomes for edit in edits}
    parts = tuple(changed.get(part.number, part) for part in rows.parts)
    before = set(check(rows))
    after = check(rows.model_copy(update={"parts": parts}))
    if faults := [fault for fault in after if fault not in before]:
        raise ChecksFailed(faults)


def _write(edits: Sequence[PartEdit]) -> Mapping[str, int]:
    codes = [edit.was.number for edit in edits]
    rows = Part.objects.select_for_update().filter(code__in=codes).values_list("code", "version", "place")
    known = {code: (version + 1, place) for code, version, place in rows}
    write_rows(written={KIND: [Written(edit.becomes, *known[edit.was.number]) for edit in edits]})
    return {code: version for code, (version, _) in known.items()}


def _tell(edits: Sequence[PartEdit], versions: Mapping[str, int], by: User | None, now: datetime) -> None:
    changes = []
    for edit in edits:
        code = edit.was.number
        pairs = {field: (plain(edit.was, field), plain(edit.becomes, field)) for field in edit.fields}
        changes += [
            Change(
                kind=KIND,
                entry=code,
                version=versions[code],
                field=field,
                was=was,
                became=became,
                by=by,
                at=now,
            )
            for field, (was, became) in pairs.items()
        ]
        card_changed.send(sender=Part, card=CardChange(Part, code, edit.becomes.name, pairs))
    Change.objects.bulk_create(changes, batch_size=500)


def _remember_own(edits: Sequence[PartEdit], by: User | None, now: datetime, source: str) -> Owned:
    codes = [edit.was.number for edit in edits]
    present = {(own.entry, own.field): own for own in OwnValue.objects.filter(kind=KIND, entry__in=codes)}
    owned: Owned = {}
    for edit in edits:
        for field in edit.fields:
            own = present.get((edit.was.number, field))
            owned.setdefault(edit.was.number, {})[field] = own.source if own else None
            if own is None:
                shipped = plain(edit.was, field)
                own = OwnValue(kind=KIND, entry=edit.was.number, field=field, shipped=shipped)
            own.by, own.at, own.source = by, now, source
            own.save()
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
