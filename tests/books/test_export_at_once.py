"""Two people export at the same moment, and one batch is made beside the request."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from threading import Barrier

import pytest
from django.db import connection

from quotes.actions.books import batches
from quotes.actions.books.batches import NothingToExport, finish_batch, run_batch, start_batch
from quotes.models import BatchState, ExportBatch, JournalEntry, StoredFile
from tests.books import posted
from tests.books.posted import NOW
from tests.cast import books
from tests.quotes import cast

PEOPLE, ENTRIES = 4, 12
pytestmark = pytest.mark.django_db(transaction=True)


def start_what_is_left() -> None:
    with suppress(NothingToExport):
        start_batch(by=books(), now=NOW)


def test_people_who_export_at_once_get_batches_that_share_no_entry() -> None:
    """While they press, payments go on being posted."""
    cast.workshop()
    by, together = books(), Barrier(PEOPLE + 1)
    posted.paid("R-2026-0001", "1.00")

    def press(_: int) -> str | None:
        together.wait()
        try:
            return start_batch(by=by, now=NOW).number
        except NothingToExport:
            return None
        finally:
            connection.close()

    def post() -> None:
        together.wait()
        for number in range(2, ENTRIES + 1):
            posted.paid(f"R-2026-{number:04}", "1.00")
        connection.close()

    with ThreadPoolExecutor(PEOPLE + 1) as pool:
        posting = pool.submit(post)
        pressed = [number for number in pool.map(press, range(PEOPLE)) if number]
        posting.result()
    start_what_is_left()

    rows = list(ExportBatch.objects.order_by("number"))
    assert [row.number for row in rows] == [f"E-2026-{number:04}" for number in range(1, len(rows) + 1)]
    assert len(set(pressed)) == len(pressed) >= 1
    assert [row.entries.count() for row in rows] == [row.entries_held for row in rows]
    assert sum(row.entries_held for row in rows) == JournalEntry.objects.count() == ENTRIES


def test_two_who_make_the_same_batch_keep_its_files_once() -> None:
    cast.workshop()
    posted.issued("I-2026-0001")
    batch, together = start_batch(by=books(), now=NOW), Barrier(2)

    def make(_: int) -> int | None:
        together.wait()
        try:
            return finish_batch(batch_id=batch.pk).workbook_id
        finally:
            connection.close()

    with ThreadPoolExecutor(2) as pool:
        first, second = pool.map(make, range(2))

    assert first == second is not None
    assert StoredFile.objects.filter(name__startswith="E-").count() == 2


def test_a_large_batch_is_made_beside_the_request(monkeypatch: pytest.MonkeyPatch) -> None:
    cast.workshop()
    posted.issued("I-2026-0001")
    batch = start_batch(by=books(), now=NOW)
    monkeypatch.setattr(batches, "SMALL", 0)

    run_batch(batch.pk)
    (beside,) = [thread for thread in threading.enumerate() if thread.name == f"export-{batch.pk}"]
    beside.join(60)

    batch.refresh_from_db()
    assert batch.state == BatchState.READY


def test_what_goes_wrong_beside_the_request_is_logged_and_the_batch_waits(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    cast.workshop()
    posted.issued("I-2026-0001")
    batch = start_batch(by=books(), now=NOW)

    def full(*_: object) -> None:
        raise OSError("No space left on device")

    monkeypatch.setattr(batches, "_make", full)
    batches._run_apart(batch.pk)

    batch.refresh_from_db()
    assert batch.state == BatchState.WAITING
    assert "No space left" in caplog.text
    assert "can be run again" in caplog.text
