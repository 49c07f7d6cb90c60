"""Takes an erased person's values out of the record of changes; its chain stands, for digests stay."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator
from datetime import datetime

from quotes.actions.audit.writing import canonical
from quotes.calc.record.chain import erased
from quotes.models import AuditEntry, AuditWords, ByKind

AT_ONCE = 500


def forget(record_type: str, rows: Collection[int], fields: Collection[str], now: datetime) -> None:
    """What was told of these columns of these rows, what the rows were called, and who of his did it."""
    for keys in _in_parts([str(row) for row in rows]):
        entries = AuditEntry.objects.filter(record_type=record_type, record_id__in=keys)
        for entry in entries.select_related("words").order_by("pk"):
            by_him = {AuditWords.BY} if entry.by_kind == ByKind.CUSTOMER else set()
            _forget_in(entry.words, {*fields, AuditWords.RECORD, *by_him}, now)


def _forget_in(words: AuditWords, fields: set[str], now: datetime) -> None:
    told = json.loads(words.told)
    left = erased(told, fields)
    if left != told:
        AuditWords.objects.filter(pk=words.pk).update(told=canonical(left), erased_at=now)


def _in_parts(keys: list[str]) -> Iterator[list[str]]:
    for first in range(0, len(keys), AT_ONCE):
        yield keys[first : first + AT_ONCE]
