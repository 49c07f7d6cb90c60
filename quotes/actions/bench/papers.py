"""Papers of the bench: drawn when they are first asked for, and kept as the bytes that were made once."""

from __future__ import annotations

from collections.abc import Callable

from django.db import transaction
from django.utils import timezone

from quotes.actions.files import PDF
from quotes.actions.storing import store_file
from quotes.models import AssemblyRecord, FindingsReport, IntakeReceipt, StoredFile, TeardownLeave

Paper = TeardownLeave | IntakeReceipt | FindingsReport | AssemblyRecord


def kept_pdf(row: Paper, name: str, draw: Callable[[], bytes]) -> StoredFile:
    """The stored paper of a row, drawn now where that has not been done yet."""
    kept: StoredFile | None = row.pdf
    return kept or _keep(row, name, draw())


@transaction.atomic
def _keep(row: Paper, name: str, content: bytes) -> StoredFile:
    """Who comes second gets what the first has stored."""
    locked = type(row).objects.select_for_update(of=("self",)).select_related("pdf").get(pk=row.pk)
    kept: StoredFile | None = locked.pdf
    if kept is None:
        kept = store_file(name=name, content_type=PDF, content=content, now=timezone.now())
        locked.pdf = kept
        locked.save(update_fields=["pdf"])
    row.pdf = kept
    return kept
