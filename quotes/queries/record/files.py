"""Stored files against the fingerprints they were stored under, and what lies on the disk beside them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import datetime, timedelta

from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import BankFile, CatalogueFile, CustomerFile, StoredFile
from quotes.models.file_store import FileGone, StoreSilent, file_store, found_bytes, walk

AT_ONCE = 4
"""Files in memory at one time."""
YOUNG = timedelta(days=1)
"""A file may wait so long for the row that names it."""


def stored_files() -> Iterator[tuple[RecordFault, ...]]:
    rows, silent = StoredFile.objects.order_by("pk").only("name", "sha256", "held", "place"), False
    for row in rows.iterator(chunk_size=AT_ONCE):
        document = f"File {row.pk} {row.name}"
        if not row.place:
            yield _bytes_are(document, row.sha256, row.held)
            continue
        if silent:
            continue
        try:
            content = found_bytes(row.place)
        except FileGone:
            yield (RecordFault(document, f"its file {row.place}", row.sha256, "none, it is gone"),)
        except StoreSilent as trouble:
            # Each of the others would be waited for in vain.
            silent = True
            yield (RecordFault("Files outside of the database", "their place", "an answer", trouble),)
        else:
            yield _bytes_are(document, row.sha256, content)


def kept_copies() -> Iterator[tuple[RecordFault, ...]]:
    """Files of a bank and of customers, which are known again by their fingerprint."""
    bank = BankFile.objects.order_by("pk").values_list("name", "sha256", "content__sha256")
    for name, sha256, found in bank.iterator():
        yield tuple(differing(f"Bank file {name}", Stated("SHA-256 of what is kept of it", sha256, found)))
    customers = CustomerFile.objects.order_by("pk").values_list("name", "sha256", "content")
    for name, sha256, content in customers.iterator(chunk_size=AT_ONCE):
        yield _bytes_are(f"Customer file {name}", sha256, content)
    books = CatalogueFile.objects.order_by("pk").values_list("name", "sha256", "content")
    for name, sha256, content in books.iterator(chunk_size=AT_ONCE):
        yield _bytes_are(f"Workbook of the catalogue {name}", sha256, content)


def _bytes_are(document: str, sha256: str, content: bytes | memoryview) -> tuple[RecordFault, ...]:
    # A memoryview as it is: bytes() of it would be one more copy of a large file.
    found = hashlib.sha256(content).hexdigest()
    return tuple(differing(document, Stated(f"SHA-256 of its {len(content):,} bytes", sha256, found)))


def unknown_files(now: datetime) -> list[str]:
    """Files that no row has named for a day: put there by hand, or left by what was not kept."""
    there = [*walk(file_store())]
    named = {*StoredFile.objects.exclude(place="").values_list("place", flat=True)}
    unnamed = (place for place in there if place not in named)
    return [place for place in unnamed if file_store().get_modified_time(place) < now - YOUNG]
