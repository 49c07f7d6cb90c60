"""Two people export at the same moment, and one batch is made beside the request."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from threading import Barrier

import pytest
from django.db import connection
from pytest_django import Settings

from quotes.actions.background import do_work
from quotes.actions.books import batch_runs, batches
from quotes.actions.books.batch_runs import export_new, run_batch, work_of
from quotes.actions.books.batches import NothingToExport, finish_batch, start_batch
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


def test_a_large_batch_is_made_in_the_background(monkeypatch: pytest.MonkeyPatch, settings: Settings) -> None:
    cast.workshop()
    posted.issued("I-2026-0001")
    monkeypatch.setattr(batch_runs, "SMALL", 0)
    settings.BACKGROUND = "worker"

    batch = export_new(by=books(), now=NOW)
    work = work_of(batch)
    assert work is not None
    assert (batch.state, work.state, work.page) == ("waiting", "waiting", f"/books/exports/{batch.pk}/")

    do_work(work.pk)
    batch.refresh_from_db()
    assert batch.state == BatchState.READY


def test_a_batch_that_fails_in_the_background_says_why_and_can_be_made_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    cast.workshop()
    posted.issued("I-2026-0001")
    monkeypatch.setattr(batch_runs, "SMALL", 0)
    with monkeypatch.context() as broken:
        broken.setattr(batches, "what_differs", lambda *given: "Sales: apart by 0.01.")
        batch = export_new(by=books(), now=NOW)
    work = work_of(batch)
    assert work is not None
    assert work.failed_because == "Sales: apart by 0.01."

    run_batch(batch)
    batch.refresh_from_db()
    assert batch.state == BatchState.READY
