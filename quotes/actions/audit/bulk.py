"""Writes many rows at once and has an entry written on each: bulk writes send no signal of their own."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, TypeVar

from django.db import connection, models, transaction

from quotes.actions.audit.telling import tell, tell_added
from quotes.actions.audit.writing import ToldEntry
from quotes.calc.record.leaf_changes import told_changes
from quotes.database.before_commit import wait
from quotes.models import AuditAction
from quotes.models.audited import EVERYTHING

Row = TypeVar("Row", bound=models.Model)


@transaction.atomic
def add_all(model: type[Row], rows: Iterable[Row], *, batch_size: int | None = None) -> list[Row]:
    """Insert the rows, in a few statements."""
    added = model._default_manager.bulk_create(rows, batch_size=batch_size)
    for row in added:
        tell_added(row)
    return added


def tell_emptied(why: str) -> None:
    """Tell that all rows went, in one entry: what was told of them before is not asked for any more."""
    changes = {EVERYTHING: (why, None)}
    wait(ToldEntry(AuditAction.DELETED, EVERYTHING, "", ("", ""), why, changes), connection)


@transaction.atomic
def change_all(rows: models.QuerySet[Row], **changes: Any) -> int:
    """Set the same values on all these rows, which are read and locked first; how many there were."""
    found = list(rows.select_for_update())
    for row in found:
        pairs = [told_changes(name, getattr(row, name), value) for name, value in changes.items()]
        tell(row, AuditAction.CHANGED, {name: pair for one in pairs for name, pair in one.items()})
    return rows.model._default_manager.filter(pk__in=[row.pk for row in found]).update(**changes)
