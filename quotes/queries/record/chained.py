"""The record of changes, entry by entry: that each follows the one before, and says what it said."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC
from typing import Any

from quotes.calc.record.chain import ChainEntry, Head, Told, chain_faults
from quotes.calc.record.fault import RecordFault
from quotes.models import AuditEntry, AuditHead

COLUMNS = ChainEntry.__slots__
AT_ONCE = 500


def chained_changes() -> Iterator[tuple[RecordFault, ...]]:
    """The entries in the order of their numbers; last the head, which knows how many there were."""
    yield from chain_faults(_entries(), head_now())


def head_now() -> Head | None:
    """How many entries there are and the hash of the last; None before the first."""
    row = AuditHead.objects.first()
    return None if row is None else Head(row.count, row.hash)


def _entries() -> Iterator[tuple[ChainEntry, dict[str, Told] | None]]:
    rows = AuditEntry.objects.order_by("number").values("words__told", *COLUMNS)
    for row in rows.iterator(chunk_size=AT_ONCE):
        told = row.pop("words__told")
        yield ChainEntry(**row | {"at": row["at"].astimezone(UTC).isoformat()}), read_told(told)


def read_told(text: str | None) -> dict[str, Told] | None:
    """What an entry says; None where it is missing or can't be read, which is a fault of its digest."""
    try:
        read: Any = json.loads(text or "")
    except ValueError:
        return None
    return read if isinstance(read, dict) and all(_is_told(one) for one in read.values()) else None


def _is_told(one: Any) -> bool:
    return isinstance(one, str) or (isinstance(one, list) and len(one) == 3)
