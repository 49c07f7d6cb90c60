"""Export batches: entries are put into one under a lock, and its files are made once, checked and kept."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.said import say
from quotes.actions.books.numbers import series_number
from quotes.actions.refused import Refused
from quotes.actions.storing import store_file
from quotes.calc.books.controls import Control, Controls, what_differs
from quotes.calc.books.export import ExportEntry
from quotes.calc.books.export_rows import entry_rows, held_cells, journal_cells, open_cells
from quotes.documents.books.flat_file import FlatFile
from quotes.documents.books.workbook import BooksWorkbook
from quotes.models import BatchState, Counter, ExportBatch, JournalEntry, JournalLine, StoredFile, Workshop
from quotes.queries.books.as_of import held_as_of, open_as_of, state_on
from quotes.queries.books.batches import entries_of, new_entries
from quotes.queries.workshop import currency_decimals

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CSV = "text/csv; charset=utf-8"
GATE = "export-batch"
AT_ONCE = 500
MOST_SAID = 300
LANGUAGE = "en"
"""Of the files, whoever makes them: those who keep the accounts read them by their heads."""
log = logging.getLogger(__name__)


class NothingToExport(Refused):
    """Every entry of the period is in a batch already, or there is none."""

    def __init__(self, first: date | None, last: date | None) -> None:
        period = {"first": first, "last": last}
        if first and last:
            said = say(
                "There is nothing new from {first} to {last}: every entry is in a batch already. "
                "No batch was made.",
                **period,
            )
        elif first:
            said = say(
                "There is nothing new from {first}: every entry is in a batch already. No batch was made.",
                **period,
            )
        elif last:
            said = say(
                "There is nothing new to {last}: every entry is in a batch already. No batch was made.",
                **period,
            )
        else:
            said = say("There is nothing new: every entry is in a batch already. No batch was made.")
        super().__init__(said)


@transaction.atomic
def start_batch(
    *, by: User, now: datetime, first: date | None = None, last: date | None = None
) -> ExportBatch:
    """Put every entry that is in no batch yet, of a period or of all time, into a new one.

    Its files are made by `finish_batch` after that. NothingToExport where there is nothing new.
    """
    Counter.objects.get_or_create(kind=GATE, year=0)
    Counter.objects.select_for_update().get(kind=GATE, year=0)
    # Counted by key: an entry that somebody posts meanwhile goes into the next batch, not half into this.
    keys = list(new_entries(first, last).order_by("pk").values_list("pk", flat=True))
    if not keys:
        raise NothingToExport(first, last)
    chunks = [keys[start : start + AT_ONCE] for start in range(0, len(keys), AT_ONCE)]
    day = timezone.localdate(now)
    batch = ExportBatch(
        number=series_number(kind="E", on=day),
        first=first,
        last=last,
        made_by=by,
        made_at=now,
        entries_held=len(keys),
        lines_held=sum(JournalLine.objects.filter(entry__in=chunk).count() for chunk in chunks),
        controls=state_on(min(last, day) if last else day),
    )
    batch.save(force_insert=True)
    put = sum(JournalEntry.objects.filter(pk__in=chunk).put_in(batch) for chunk in chunks)
    if put != len(keys):
        raise RuntimeError(f"{batch.number}: {put} of {len(keys)} entries were free.")
    return batch


def finish_batch(*, batch_id: int) -> ExportBatch:
    """Write the files of a batch, check its control totals and keep them; a ready one stays as it is.

    Where a total is apart the batch fails, says what differs by how much, and offers no file. Runs outside
    a transaction, so that others see how far it has come.
    """
    batch = ExportBatch.objects.get(pk=batch_id)
    if batch.state == BatchState.READY:
        return batch
    with translation.override(LANGUAGE):
        made = _make(batch)
    if made.differs:
        return _fail(batch, made)
    return _keep(batch, made)


@dataclass(frozen=True, slots=True)
class _Made:
    """The files of a batch with what was checked; `differs` is empty where all agrees."""

    workbook: bytes
    csv: bytes
    controls: tuple[Control, ...]
    differs: str


def _make(batch: ExportBatch) -> _Made:
    shop = Workshop.objects.get_or_default()
    decimals, state = currency_decimals(shop.currency), batch.controls
    controls = Controls(decimals, batch.lines_held)
    book = BooksWorkbook(f"Export {batch.number}", shop.name, batch.made_at, decimals)
    with book, FlatFile(batch.number) as flat:
        done = 0
        for entries in entries_of(batch):
            for entry in entries:
                controls.add(entry)
                _write(book, flat, entry, decimals)
                done += len(entry.lines)
            ExportBatch.objects.filter(pk=batch.pk).come_to(min(done, batch.lines_held))
        _write_state(book, controls, state, decimals)
        checked = controls.checked()
        for cells in _head(batch, shop, state):
            book.add("Control", cells)
        for control in checked:
            book.add("Control", control.cells)
        return _Made(book.finished(), flat.finished(), checked, what_differs(checked, controls.odd))


def _write(book: BooksWorkbook, flat: FlatFile, entry: ExportEntry, decimals: int) -> None:
    for sheet, cells in entry_rows(entry, decimals):
        book.add(sheet, cells)
    for cells in journal_cells(entry, decimals):
        flat.add(cells)


def _write_state(book: BooksWorkbook, controls: Controls, state: Mapping[str, Any], decimals: int) -> None:
    """The sheets that are of a day and not of the entries, and the tax of all of them together."""
    for cells in controls.taxes.rows():
        book.add("Tax summary", cells)
    on = date.fromisoformat(state["as_of"])
    for item in open_as_of(state):
        book.add("Open items", open_cells(item, on, decimals))
        controls.add_open(item)
    for held in held_as_of(state):
        book.add("Deposits held", held_cells(held, decimals))
    controls.set_receivables(state["receivables"])


def _head(batch: ExportBatch, shop: Workshop, state: Mapping[str, Any]) -> list[tuple[Any, ...]]:
    """What the batch is, above its control totals."""
    period = f"{batch.first or 'the beginning'} to {batch.last or 'the end'}"
    said = (
        ("Batch", batch.number),
        ("Workshop", shop.name),
        ("Currency", shop.currency),
        ("Entries", f"{batch.entries_held}, all that were new"),
        ("Of the time from", period),
        ("Open items and deposits as they stood on", state["as_of"]),
    )
    return [(what, words, None, None, None, None, None) for what, words in said]


@transaction.atomic
def _keep(batch: ExportBatch, made: _Made) -> ExportBatch:
    """Keep the files once: who comes second gets what the first has kept."""
    row = ExportBatch.objects.select_for_update().get(pk=batch.pk)
    if row.state == BatchState.READY:
        return row
    row.workbook = _stored(f"{row.number}.xlsx", XLSX, made.workbook)
    row.csv = _stored(f"{row.number}.csv", CSV, made.csv)
    row.state, row.failed_because, row.ready_at = BatchState.READY, "", timezone.now()
    row.lines_done, row.controls = row.lines_held, _checked(row, made)
    row.save(
        update_fields=["workbook", "csv", "state", "failed_because", "ready_at", "lines_done", "controls"]
    )
    return row


@transaction.atomic
def _fail(batch: ExportBatch, made: _Made) -> ExportBatch:
    row = ExportBatch.objects.select_for_update().get(pk=batch.pk)
    if row.state == BatchState.READY:
        return row
    said = made.differs
    row.failed_because = said if len(said) <= MOST_SAID else f"{said[: MOST_SAID - 1]}…"
    row.state, row.controls = BatchState.FAILED, _checked(row, made)
    row.save(update_fields=["state", "failed_because", "controls"])
    log.error("Export %s failed: %s", row.number, said)
    return row


def _checked(row: ExportBatch, made: _Made) -> dict[str, Any]:
    return {**row.controls, "checked": [one.model_dump(mode="json") for one in made.controls]}


def _stored(name: str, content_type: str, content: bytes) -> StoredFile:
    return store_file(name=name, content_type=content_type, content=content, now=timezone.now())
