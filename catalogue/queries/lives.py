"""Changes of lives that the owner approved and has not taken back."""

from __future__ import annotations

from typing import cast

from catalogue.calc.approved_lives import ApprovedLife
from catalogue.calc.engine import Basis
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
        source=f"our own record, approved by {by} on {row.at:%Y-%m-%d}",
        teardowns=frozenset(row.teardowns),
    )


def standing_change(component: str, basis: str, engine_type: str) -> LifeChange | None:
    """The change that holds for one life of one engine type, or for every type where that is empty."""
    rows = LifeChange.objects.filter(takes_back=None, taken_back=None, component=component, basis=basis)
    return rows.filter(engine_type__in=("", engine_type)).order_by("-pk").first()
