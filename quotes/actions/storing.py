"""Keeping a finished document as the bytes that were made once."""

from __future__ import annotations

import logging
from datetime import datetime
from functools import partial

from django.db import transaction

from quotes.models import StoredFile
from quotes.models.file_store import drop_bytes

log = logging.getLogger(__name__)


def store_file(*, name: str, content_type: str, content: bytes, now: datetime) -> StoredFile:
    """The bytes with their SHA-256, as they are served ever after.

    Where the transaction is not kept, what lies outside stays there without a row: see `sweep_files`.
    """
    file = StoredFile(name=name, content_type=content_type, made_at=now)
    file.put(content)
    file.save(force_insert=True)
    return file


def drop_file_later(place: str) -> None:
    """What no row names any more goes once that is kept; after a crash between, `sweep_files` takes it."""
    if place:
        transaction.on_commit(partial(_drop, place))


def _drop(place: str) -> None:
    """What was kept is kept, whether or not the place of files answers."""
    try:
        drop_bytes([place])
    except OSError as error:
        log.warning("%s is still there, for `sweep_files`: %s", place, error)
