"""Batches: every entry in exactly one, numbered, and the same bytes ever after."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from django.db import IntegrityError, connection, transaction

from quotes.actions.books import batches
from quotes.actions.books.batch_runs import run_batch
from quotes.actions.books.batches import NothingToExport, finish_batch, start_batch
from quotes.calc.books.export import ExportEntry
from quotes.models import BatchState, ExportBatch, IssuedForGood, JournalEntry
from quotes.queries.books.batches import entries_of
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.cast import books
from tests.quotes import cast

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def workshop(db: None) -> None:
    cast.workshop()


def exported(**period: date) -> ExportBatch:
    return finish_batch(batch_id=start_batch(by=books(), now=NOW, **period).pk)


def held(batch: ExportBatch) -> list[str]:
    return list(batch.entries.values_list("number", flat=True))


def test_a_batch_takes_every_entry_that_is_new() -> None:
    posted.issued("I-2026-0001")
    posted.paid("R-2026-0001", "20.00")

    first = exported()

    assert first.number == "E-2026-0001"
    assert held(first) == ["I-2026-0001", "R-2026-0001"]
    assert (first.entries_held, first.lines_held, first.lines_done) == (2, 5, 5)
    assert first.state == BatchState.READY


def test_the_next_batch_takes_what_came_since() -> None:
    posted.issued("I-2026-0001")
    exported()
    posted.issued("I-2026-0002")

    second = exported()

    assert (second.number, held(second)) == ("E-2026-0002", ["I-2026-0002"])


def test_nothing_new_makes_no_batch_and_uses_no_number() -> None:
    posted.issued("I-2026-0001")
    exported()

    with pytest.raises(NothingToExport, match="nothing new: every entry"):
        start_batch(by=books(), now=NOW)
    posted.issued("I-2026-0002")

    assert exported().number == "E-2026-0002"


def test_a_period_takes_its_first_and_its_last_day_and_nothing_else() -> None:
    days = [ON - timedelta(days=3), ON - timedelta(days=2), ON - timedelta(days=1), ON]
    for number, day in enumerate(days):
        posted.issued(f"I-2026-000{number}", issued_on=day)

    assert held(exported(first=days[1], last=days[2])) == ["I-2026-0001", "I-2026-0002"]
    assert held(exported()) == ["I-2026-0000", "I-2026-0003"]


def test_a_period_without_entries_names_itself() -> None:
    posted.issued("I-2026-0001")

    with pytest.raises(NothingToExport, match="nothing new from 2026-01-01 to 2026-01-31"):
        start_batch(by=books(), now=NOW, first=date(2026, 1, 1), last=date(2026, 1, 31))


def test_an_entry_never_goes_from_one_batch_into_another() -> None:
    posted.issued("I-2026-0001")
    first = exported()
    other = ExportBatch.objects.create(
        number="E-X", made_by=books(), made_at=NOW, entries_held=1, lines_held=3
    )

    assert JournalEntry.objects.all().put_in(other) == 0
    assert held(first) == ["I-2026-0001"]


def test_files_are_made_once_and_kept_with_their_fingerprint() -> None:
    posted.issued("I-2026-0001")
    first = exported()

    again = finish_batch(batch_id=first.pk)

    assert again.workbook_id == first.workbook_id
    assert first.workbook is not None
    assert first.csv is not None
    assert first.workbook.is_sound
    assert first.csv.is_sound
    assert (first.workbook.name, first.csv.name) == ("E-2026-0001.xlsx", "E-2026-0001.csv")


def test_a_batch_that_was_cut_short_comes_to_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    """The process dies while the files are made; meanwhile the customer pays."""
    posted.issued("I-2026-0001")
    waiting = start_batch(by=books(), now=NOW)
    whole = batches._make(waiting)
    posted.issued("I-2026-0002")
    posted.paid("R-2026-0001", "20.00")

    run_batch(waiting)

    made = ExportBatch.objects.select_related("workbook", "csv").get(pk=waiting.pk)
    assert made.workbook is not None
    assert made.csv is not None
    assert bytes(made.workbook.content) == whole.workbook
    assert bytes(made.csv.content) == whole.csv


def test_an_error_while_writing_leaves_the_batch_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    posted.issued("I-2026-0001")
    waiting = start_batch(by=books(), now=NOW)

    def full(*_: object) -> None:
        raise OSError("No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(batches, "_write_state", full)
        with pytest.raises(OSError, match="No space left"):
            finish_batch(batch_id=waiting.pk)
    waiting.refresh_from_db()
    assert (waiting.state, waiting.workbook, waiting.lines_done) == (BatchState.WAITING, None, 3)

    assert finish_batch(batch_id=waiting.pk).state == BatchState.READY


def test_progress_is_written_as_the_lines_are(monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(5):
        posted.issued(f"I-2026-000{number}")
    monkeypatch.setattr("quotes.queries.books.batches.AT_ONCE", 2)
    waiting = start_batch(by=books(), now=NOW)
    seen = []

    def look(batch: ExportBatch) -> Iterator[list[ExportEntry]]:
        for entries in entries_of(batch):
            yield entries
            seen.append(ExportBatch.objects.get().lines_done)

    monkeypatch.setattr(batches, "entries_of", look)
    made = finish_batch(batch_id=waiting.pk)

    assert seen == [6, 12, 15]
    assert made.lines_done == 15


def test_a_batch_is_not_changed_afterwards() -> None:
    posted.issued("I-2026-0001")
    batch = exported()

    batch.number = "E-2026-0009"
    with pytest.raises(IssuedForGood):
        batch.save()
    with pytest.raises(IssuedForGood):
        batch.delete()


def test_the_database_keeps_an_entry_in_its_batch_and_a_ready_batch_as_it_is() -> None:
    posted.issued("I-2026-0001")
    exported()

    for change in (
        "UPDATE quotes_journalentry SET batch_id = NULL",
        "UPDATE quotes_exportbatch SET state = 'waiting'",
        "UPDATE quotes_exportbatch SET csv_id = workbook_id",
        "UPDATE quotes_exportbatch SET entries_held = 2",
        "DELETE FROM quotes_exportbatch",
    ):
        with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(change)


def test_progress_of_somebody_slower_does_not_touch_a_batch_that_is_ready() -> None:
    posted.issued("I-2026-0001")
    batch = exported()

    assert ExportBatch.objects.filter(pk=batch.pk).come_to(1) == 0
