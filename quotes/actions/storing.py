"""Keeping a finished document as the bytes that were made once."""

from __future__ import annotations

from datetime import datetime

from quotes.models import StoredFile


def store_file(*, name: str, content_type: str, content: bytes, now: datetime) -> StoredFile:
    """The bytes with their SHA-256, as they are served ever after.

    Where the transaction is not kept, what lies outside stays there without a row: see `sweep_files`.
    """
    file = StoredFile(name=name, content_type=content_type, made_at=now)
    file.put(content)
    file.save(force_insert=True)
    return file
