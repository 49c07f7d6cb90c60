"""Stored files against the fingerprints they were stored under, and what lies on the disk beside them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import datetime, timedelta

from catalogue.models import PriceList
from catalogue.models.file_store import FileGone, StoreSilent, file_store, found_bytes, walk
from catalogue.models.kept import Kept
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import BankFile, CatalogueFile, CustomerFile, StoredFile

AT_ONCE = 4
"""Files in memory at one time."""
YOUNG = timedelta(days=1)
"""A file may wait so long for the row that names it."""


KINDS: tuple[tuple[type[Kept], str], ...] = (
    (StoredFile, "File"),
    (CustomerFile, "Customer file"),
    (CatalogueFile, "Workbook of the catalogue"),
    (PriceList, "Price list"),
)
"""Every model whose bytes may lie outside of the database, and what one of it is called."""


def stored_files() -> Iterator[tuple[RecordFault, ...]]:
    yield from _each(StoredFile, "File")


def kept_copies() -> Iterator[tuple[RecordFault, ...]]:
    """Files that were handed in, which are known again by their fingerprint."""
    bank = BankFile.objects.order_by("pk").values_list("name", "sha256", "content__sha256")
    for name, sha256, found in bank.iterator():
        yield tuple(differing(f"Bank file {name}", Stated("SHA-256 of what is kept of it", sha256, found)))
    for kind, called in KINDS[1:]:
        yield from _each(kind, called)


def _each(kind: type[Kept], called: str) -> Iterator[tuple[RecordFault, ...]]:
    silent = False
    rows = kind.to_be_had().order_by("pk").only("name", "sha256", "held", "place")
    for row in rows.iterator(chunk_size=AT_ONCE):
        if row.place and silent:
            continue
        document = f"{called} {row.pk} {row.name}"
        try:
            yield _bytes_are(document, row.sha256, found_bytes(row.place) if row.place else row.held)
        except FileGone:
            yield (RecordFault(document, f"its file {row.place}", row.sha256, "none, it is gone"),)
        except StoreSilent as trouble:
            # Each of the others would be waited for in vain.
            silent = True
            yield (RecordFault("Files outside of the database", "their place", "an answer", trouble),)


def _bytes_are(document: str, sha256: str, content: bytes | memoryview) -> tuple[RecordFault, ...]:
    # A memoryview as it is: bytes() of it would be one more copy of a large file.
    found = hashlib.sha256(content).hexdigest()
    return tuple(differing(document, Stated(f"SHA-256 of its {len(content):,} bytes", sha256, found)))


def unknown_files(now: datetime) -> list[str]:
    """Files that no row has named for a day: put there by hand, or left by what was not kept."""
    there = [*walk(file_store())]
    named = {place for kind, _ in KINDS for place in places_of(kind)}
    unnamed = (place for place in there if place not in named)
    return [place for place in unnamed if file_store().get_modified_time(place) < now - YOUNG]


def places_of(kind: type[Kept]) -> Iterator[str]:
    """Where the bytes of its rows lie, as far as that is outside."""
    return kind._default_manager.exclude(place="").values_list("place", flat=True).iterator()
