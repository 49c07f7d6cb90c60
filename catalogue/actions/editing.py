"""Changes one entry of the catalogue by hand: checked against all others, then written and remembered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from pydantic import ValidationError

from catalogue.actions.entries import Written, count_up, last_versions, write_rows
from catalogue.actions.refused import AlreadyThere, ChecksFailed, Gone, StaleEntry, Theirs
from catalogue.actions.remembering import remember, remember_added
from catalogue.calc.checks import check
from catalogue.calc.fault import Fault
from catalogue.calc.merge import differing
from catalogue.calc.row_faults import row_faults
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.models import Change
from catalogue.queries.resolved import rows_as_written
from catalogue.queries.rows import rows_of
from catalogue.queries.shapes import SHAPES, Shape


@dataclass(frozen=True, slots=True)
class Edit:
    """What somebody wants changed on one entry, and the version that was looked at."""

    kind: str
    code: str
    values: Mapping[str, Any]
    """New values by field of the row."""
    version: int
    source: str = ""
    """Where the new values come from, in the words of who enters them."""


@transaction.atomic
def change_entry(*, edit: Edit, by: User | None, now: datetime) -> tuple[str, ...]:
    """Write the changed fields of one entry and say which they were.

    Raises Gone, StaleEntry with what changed meanwhile, or ChecksFailed with a fault for each field.
    """
    shape = SHAPES[edit.kind]
    entry = shape.model._default_manager.select_for_update().filter(code=edit.code).first()
    if entry is None:
        raise Gone(edit.kind, edit.code)
    (before,) = rows_of(shape, [edit.code])
    after = checked_row(shape, edit.code, {**before.model_dump(), **edit.values})
    fields = differing(before, after)
    if not fields:
        # Nothing to do, as when the same form is sent twice.
        return ()
    if entry.version != edit.version:
        raise StaleEntry(_since(edit), entry.version)
    _check_all(shape, after)
    write_rows(written={edit.kind: [Written(after, entry.version + 1, entry.place)]})
    remember(edit.kind, before, after, fields, entry.version + 1, edit.source, by, now)
    count_up()
    return fields


@transaction.atomic
def add_entry(*, kind: str, values: Mapping[str, Any], by: User | None, now: datetime) -> str:
    """Add an entry of the workshop's own, and give its code.

    Raises AlreadyThere, or ChecksFailed with a fault for each field.
    """
    shape = SHAPES[kind]
    code = str(values.get(shape.columns["code"], ""))
    if shape.model._default_manager.filter(code=code).exists():
        raise AlreadyThere(kind, code)
    row = checked_row(shape, code, dict(values))
    _check_all(shape, row)
    place = shape.model._default_manager.count()
    version = last_versions(kind).get(code, 0) + 1
    write_rows(written={kind: [Written(row, version, place)]})
    remember_added(kind, row, version, by, now)
    count_up()
    return code


def checked_row(shape: Shape, code: str, values: Mapping[str, Any]) -> Row:
    """The row made of these values. Raises ChecksFailed with a fault for each field."""
    try:
        return shape.row.model_validate(dict(values))
    except ValidationError as error:
        faults = [
            Fault(shape.kind, code, ".".join(str(step) for step in place), reason)
            for place, reason in row_faults(error)
        ]
        raise ChecksFailed(faults) from None


def _check_all(shape: Shape, row: Row) -> None:
    """The whole catalogue with this row in it. Only faults that it brings are told."""
    rows = rows_as_written()
    before = set(check(rows))
    if faults := [fault for fault in check(with_row(rows, shape, row)) if fault not in before]:
        raise ChecksFailed(faults)


def with_row(rows: CatalogueRows, shape: Shape, row: Row) -> CatalogueRows:
    """The catalogue with one row in place of the one with its code, or beside the others."""
    present = getattr(rows, shape.kind)
    if not isinstance(present, tuple):
        return rows.model_copy(update={shape.kind: row})
    code = shape.code_of(row)
    changed = [row if shape.code_of(other) == code else other for other in present]
    if row not in changed:
        changed.append(row)
    return rows.model_copy(update={shape.kind: tuple(changed)})


def _since(edit: Edit) -> Sequence[Theirs]:
    """What was changed on this entry after the version that was looked at."""
    changes = Change.objects.filter(kind=edit.kind, entry=edit.code, version__gt=edit.version)
    first: dict[str, Change] = {}
    last: dict[str, Change] = {}
    for change in changes.select_related("by").order_by("version"):
        first.setdefault(change.field, change)
        last[change.field] = change
    return [
        Theirs(field, first[field].was, change.became, change.by.get_full_name() if change.by else "")
        for field, change in last.items()
    ]
