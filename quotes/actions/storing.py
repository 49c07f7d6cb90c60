"""Keeping a finished document as the bytes that were made once."""

from __future__ import annotations

import hashlib
from datetime import datetime

from quotes.models import StoredFile


def store_file(*, name: str, content_type: str, content: bytes, now: datetime) -> StoredFile:
    """The bytes with their SHA-256, as they are served ever after."""
    file = StoredFile(
        name=name,
        content_type=content_type,
        sha256=hashlib.sha256(content).hexdigest(),
        content=content,
        made_at=now,
    )
    file.save(force_insert=True)
    return file
