"""Tells whoever listens which cards changed, inside the transaction; the catalogue knows nobody who does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.dispatch import Signal

from catalogue.models.base import Entry


@dataclass(frozen=True, slots=True)
class CardChange:
    """One card, and before and after of each of its fields that changed."""

    model: type[Entry]
    code: str
    name: str
    changes: Mapping[str, tuple[Any, Any]]
    added: bool = False
    removed: bool = False


card_changed = Signal()
"""Sent with `card`, a CardChange."""
catalogue_loaded = Signal()
"""Sent with `counts`: how many entries a load added and changed, by kind."""
