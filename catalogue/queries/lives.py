"""Changes of lives that the owner approved and has not taken back."""

from __future__ import annotations

from typing import cast

from catalogue.calc.approved_lives import ApprovedLife
from catalogue.calc.engine import Basis
from catalogue.calc.said import say
from catalogue.models import LifeChange


def standing_changes() -> list[LifeChange]:
    """Approved and not taken back, the oldest first."""
    rows = LifeChange.objects.filter(takes_back=None, taken_back=None)
    return list(rows.select_related("by").order_by("pk"))


def approved_lives() -> tuple[ApprovedLife, ...]:
    """What stands, as the sums read it."""
    return tuple(as_approved(row) for row in standing_changes())


def as_approved(row: LifeChange) -> ApprovedLife:
    """A change as a value."""
    by = row.by.get_full_name() or row.by.get_username()
    return ApprovedLife(
        component=row.component,
        basis=cast(Basis, row.basis),
        engine_type=row.engine_type,
        low=row.low,
        typical=row.typical,
        high=row.high,
        shape=row.shape,
        evidence=row.evidence,
        source=say("our own record, approved by {by} on {day}", by=by, day=f"{row.at:%Y-%m-%d}"),
        teardowns=frozenset(row.teardowns),
    )


def changes_standing_on(component: str) -> list[LifeChange]:
    """Those of one component that no later one of the same life and engine type replaces."""
    rows = LifeChange.objects.filter(takes_back=None, taken_back=None, component=component)
    newest = {(row.basis, row.engine_type): row for row in rows.select_related("by").order_by("pk")}
    return sorted(newest.values(), key=lambda row: -row.pk)
