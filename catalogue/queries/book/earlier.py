"""A row as it was before its latest changes, from the list of changes."""

from __future__ import annotations

from collections import defaultdict

from catalogue.calc.book.marks import mark_of
from catalogue.calc.rows.kinds import Row
from catalogue.models import Change
from catalogue.queries.shapes import SHAPES


def earlier(kind: str, row: Row, mark: str) -> Row | None:
    """The row as it was when it bore the mark, its changes taken back one by one; None where it never did."""
    shape = SHAPES[kind]
    by_version: dict[int, list[Change]] = defaultdict(list)
    for change in Change.objects.filter(kind=kind, entry=shape.code_of(row)):
        by_version[change.version].append(change)
    fields = set(shape.row.model_fields)
    before = row
    for version in sorted(by_version, reverse=True):
        was = {change.field: change.was for change in by_version[version] if change.field in fields}
        if shape.columns["code"] in was:
            return None
        before = shape.row.model_validate({**before.model_dump(), **was})
        if mark_of(before) == mark:
            return before
    return None


def last_change(kind: str, code: str, field: str) -> Change | None:
    """Who changed a field last, and from what to what."""
    changes = Change.objects.filter(kind=kind, entry=code)
    if field:
        changes = changes.filter(field=field)
    return changes.select_related("by").order_by("-version").first()
