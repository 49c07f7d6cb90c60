"""The record of changes inside a test, whose transaction is never committed."""

from __future__ import annotations

import json
from typing import Any

from django.db import connection

from quotes.database.before_commit import write_waiting
from quotes.models import AuditEntry


def written(record_type: str = "") -> list[AuditEntry]:
    """The entries as a commit would leave them, the oldest first."""
    write_waiting(connection)
    found = AuditEntry.objects.select_related("words").order_by("number")
    return list(found.filter(record_type=record_type) if record_type else found)


def told(entry: AuditEntry) -> dict[str, Any]:
    """Before and after by field."""
    return {field: (was, became) for field, (was, became, _) in json.loads(entry.words.told).items()}
