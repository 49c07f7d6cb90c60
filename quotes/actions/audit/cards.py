"""Hears from the catalogue which cards changed; one entry for each, and one for a whole load."""

from __future__ import annotations

from typing import Any

from django.db import connection

from catalogue.actions.changed import CardChange, card_changed, catalogue_loaded
from catalogue.models import CatalogueVersion
from quotes.actions.audit.plain import LONGEST_NAME
from quotes.actions.audit.writing import ToldEntry
from quotes.calc.record.leaf_changes import Pair, told_changes
from quotes.database.before_commit import wait
from quotes.models import AuditAction

EMPTY: tuple[object, ...] = ("", [], {})


def listen_to_cards() -> None:
    """Begin to listen; called once, when all models are there."""
    card_changed.connect(_card_changed, dispatch_uid="audit")
    catalogue_loaded.connect(_loaded, dispatch_uid="audit")


def _card_changed(card: CardChange, **_: Any) -> None:
    changes: dict[str, Pair] = {}
    for field, (was, became) in card.changes.items():
        if not (was is None and became in EMPTY) and not (became is None and was in EMPTY):
            changes |= told_changes(field, was, became)
    action = AuditAction.CHANGED
    if card.added or card.removed:
        action = AuditAction.ADDED if card.added else AuditAction.DELETED
    wait(
        ToldEntry(
            action, card.model._meta.label_lower, card.code, ("", ""), card.name[:LONGEST_NAME], changes
        ),
        connection,
    )


def _loaded(counts: dict[str, int], **_: Any) -> None:
    label = CatalogueVersion._meta.label_lower
    changes: dict[str, Pair] = {name: (None, count) for name, count in counts.items() if count}
    wait(ToldEntry(AuditAction.LOADED, label, "1", ("", ""), "catalogue", changes), connection)
