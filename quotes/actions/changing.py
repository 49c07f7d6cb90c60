"""Changing fields of a record that somebody else may have changed since it was opened."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.calc.said import say
from quotes.actions.refused import StaleDraft
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.models import Customer, Enquiry
from quotes.queries.last_change import last_changed_by


def set_fields(
    row: Customer | Enquiry, wanted: Mapping[str, object], called: Mapping[str, str], *, expected_version: int
) -> bool:
    """Set fields of a locked row and count its version up; whether any differed. The caller saves it.

    StaleDraft, which tells the difference by what the fields are `called`, where somebody else has changed
    the row since `expected_version`. What is the same as stored is no change, whoever sends it.
    """
    differing = [name for name, value in wanted.items() if getattr(row, name) != value]
    if not differing:
        return False
    if row.version != expected_version:
        changes = [
            RevisionChange(
                what=say(called[name]),
                before=str(getattr(row, name) or ""),
                after=str(wanted[name] or ""),
            )
            for name in differing
        ]
        raise StaleDraft(changes, last_changed_by(row), row.version)
    for name in differing:
        setattr(row, name, wanted[name])
    row.version += 1
    return True
