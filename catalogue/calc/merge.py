"""Lays a shipped catalogue over the workshop's own: what is new, what changed, what stays the workshop's."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from catalogue.calc.rows.kinds import Row


@dataclass(frozen=True, slots=True)
class Kept:
    """A value of the workshop's own that the shipped one does not replace."""

    kind: str
    entry: str
    field: str
    own: Any
    shipped: Any


@dataclass(frozen=True, slots=True)
class Merged:
    """One kind, merged: every row as it shall be, and by code what that means."""

    rows: Mapping[str, Row]
    added: tuple[str, ...]
    changed: Mapping[str, tuple[str, ...]]
    """The fields that change, by code."""
    unchanged: tuple[str, ...]
    own_entries: tuple[str, ...]
    """Entries that only the workshop has."""
    kept: tuple[Kept, ...]


def merge(
    kind: str, shipped: Mapping[str, Row], present: Mapping[str, Row], own: Mapping[str, Collection[str]]
) -> Merged:
    """Merge one kind's rows by code. `own` names by code the fields that the workshop set itself."""
    rows: dict[str, Row] = {code: row for code, row in present.items() if code not in shipped}
    own_entries = tuple(rows)
    added, unchanged = [], []
    changed: dict[str, tuple[str, ...]] = {}
    kept: list[Kept] = []
    for code, row in shipped.items():
        before = present.get(code)
        if before is None:
            rows[code] = row
            added.append(code)
            continue
        mine = {field: getattr(before, field) for field in own.get(code, ())}
        rows[code] = row.model_copy(update=mine)
        kept += _kept(kind, code, mine, row)
        fields = differing(before, rows[code])
        if fields:
            changed[code] = fields
        else:
            unchanged.append(code)
    return Merged(rows, tuple(added), changed, tuple(unchanged), own_entries, tuple(kept))


def _kept(kind: str, code: str, mine: Mapping[str, Any], row: Row) -> list[Kept]:
    return [
        Kept(kind, code, field, value, getattr(row, field))
        for field, value in mine.items()
        if value != getattr(row, field)
    ]


def differing(before: Row, after: Row) -> tuple[str, ...]:
    """The fields in which two rows of one kind differ."""
    return tuple(
        field for field in type(before).model_fields if getattr(before, field) != getattr(after, field)
    )
