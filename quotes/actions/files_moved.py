"""Moving files out of rows and from another folder into where files are kept; sweeping what no row names."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from django.core.files.base import ContentFile
from django.db import models, transaction
from django.db.models.functions import Length

from catalogue.models.file_store import (
    SMALL_BYTES,
    DamagedFile,
    drop_bytes,
    file_store,
    keep_bytes,
    kept_bytes,
    walk,
)
from catalogue.models.kept import Kept
from quotes.actions.refused import Refused
from quotes.models.thawed import thawed
from quotes.queries.record.files import KINDS, unknown_files

AT_ONCE = 20
"""Rows that are moved in one transaction: their table is without its triggers only for that moment."""


class FileUnsound(Refused):
    """What is to be moved is not what was kept."""


def move_out_of_rows() -> Iterator[int]:
    """Puts the bytes of rows where files are kept, and says after each lot how many went."""
    for kind, _ in KINDS:
        while keys := list(_large_in_rows(kind)[:AT_ONCE]):
            yield _move(kind, keys)


def count_in_rows() -> int:
    """How many files wait to be moved."""
    return sum(_large_in_rows(kind).count() for kind, _ in KINDS)


def move_from_folder(folder: Path) -> Iterator[str]:
    """Fetches each file that a row names and that is not there, or damaged, by its place in that folder."""
    there, store, lacking = {*walk(file_store())}, file_store(), []
    for place, sha256 in _named():
        if place in there and _is_sound(place, sha256):
            continue
        if not (folder / place).is_file():
            lacking.append(place)
            continue
        content = ContentFile(_sound((folder / place).read_bytes(), sha256, place))
        store.delete(place)
        store.save(place, content)
        yield place
    if lacking:
        raise FileUnsound(f"{folder} does not hold {len(lacking)} of the files either: {', '.join(lacking)}")


def _is_sound(place: str, sha256: str) -> bool:
    try:
        return bool(kept_bytes(place, sha256))
    except DamagedFile:
        return False


def sweep_files(*, now: datetime, pretend: bool = False) -> list[str]:
    """Deletes what no row has named for a day. The places."""
    left = unknown_files(now)
    if not pretend:
        drop_bytes(left)
    return left


def _named() -> Iterator[tuple[str, str]]:
    """Place and fingerprint of every file that a row names."""
    for kind, _ in KINDS:
        rows = kind._default_manager.exclude(place="").order_by("pk")
        yield from rows.values_list("place", "sha256").iterator()


def _large_in_rows(kind: type[Kept]) -> models.QuerySet[Kept, int]:
    rows = kind._default_manager.filter(place="").annotate(size=Length("held")).filter(size__gte=SMALL_BYTES)
    return rows.order_by("pk").values_list("pk", flat=True)


def _move(kind: type[Kept], keys: list[int]) -> int:
    """Written before the rows name them; a row that somebody changed meanwhile stays."""
    rows = kind._default_manager.filter(pk__in=keys)
    places = {}
    for row in rows.iterator(chunk_size=1):
        content = _sound(bytes(row.held), row.sha256, row.name)
        places[row.pk, row.sha256] = keep_bytes(content, row.sha256)
    with transaction.atomic(), thawed({kind._meta.db_table}):
        moved: models.QuerySet[Kept] = models.QuerySet(kind)
        for (pk, sha256), place in places.items():
            still = moved.filter(pk=pk, sha256=sha256, place="").exclude(held=b"")
            still.update(place=place, held=b"")
    return len(places)


def _sound(content: bytes, sha256: str, name: str) -> bytes:
    if hashlib.sha256(content).hexdigest() != sha256:
        raise FileUnsound(f"{name} is not what was kept: its SHA-256 differs. Nothing of it was moved.")
    return content
