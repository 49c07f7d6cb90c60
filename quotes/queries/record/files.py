"""Stored files against the fingerprints they were stored under, and what lies on the disk beside them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import BankFile, CatalogueFile, CustomerFile, StoredFile

AT_ONCE = 4
"""Files in memory at one time."""


def stored_files() -> Iterator[tuple[RecordFault, ...]]:
    rows = StoredFile.objects.order_by("pk").values_list("pk", "name", "sha256", "content")
    for pk, name, sha256, content in rows.iterator(chunk_size=AT_ONCE):
        yield _bytes_are(f"File {pk} {name}", sha256, content)


def kept_copies() -> Iterator[tuple[RecordFault, ...]]:
    """Files of a bank and of customers, which are known again by their fingerprint."""
    bank = BankFile.objects.order_by("pk").values_list("name", "sha256", "content__content")
    for name, sha256, content in bank.iterator(chunk_size=AT_ONCE):
        yield _bytes_are(f"Bank file {name}", sha256, content)
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


def unknown_on_disk(media: Path) -> Iterator[str]:
    """Files under the media folder: all that the site keeps stands in the database, so none is known."""
    if media.is_dir():
        for path in sorted(media.rglob("*")):
            if path.is_file():
                yield path.relative_to(media).as_posix()
