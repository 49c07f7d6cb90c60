"""Dropping kept bytes once no row names them any more."""

from __future__ import annotations

import logging
from functools import partial

from django.db import transaction

from catalogue.models.file_store import drop_bytes

log = logging.getLogger(__name__)


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
