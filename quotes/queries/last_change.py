"""Who changed a record last, as the record of changes has it."""

from __future__ import annotations

import json

from django.db import models

from quotes.models import AuditEntry, AuditWords


def last_changed_by(row: models.Model) -> str:
    """The name; empty where nothing is told, or no more."""
    entries = AuditEntry.objects.of_record(row._meta.label_lower, str(row.pk)).select_related("words")
    last = entries.order_by("-number").first()
    told = json.loads(last.words.told).get(AuditWords.BY) if last else None
    return str(told[1]) if isinstance(told, list) else ""
