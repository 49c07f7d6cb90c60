"""When the files of an export batch are made: at once where it is small, else in the background."""

from __future__ import annotations

from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.urls import reverse

from catalogue.calc.said import say
from quotes.actions.background import run_later
from quotes.actions.background_hand import Hand
from quotes.actions.books.batches import finish_batch, start_batch
from quotes.actions.refused import Refused
from quotes.models import BackgroundWork, BatchState, ExportBatch

SMALL = 500
"""Journal lines that are written while the person waits: about a second."""


class BatchFailed(Refused):
    """A control total was apart, so no file is offered."""


def export_new(
    *, by: User, now: datetime, first: date | None = None, last: date | None = None
) -> ExportBatch:
    """A batch of all that is new, and its files at once or later; NothingToExport where nothing is."""
    with transaction.atomic():
        batch = start_batch(by=by, now=now, first=first, last=last)
        if batch.lines_held > SMALL:
            _later(batch)
    return batch if batch.lines_held > SMALL else finish_batch(batch_id=batch.pk)


def run_batch(batch: ExportBatch) -> None:
    """Make the files of one that failed, or whose process was lost; a ready one stays as it is."""
    if batch.lines_held > SMALL:
        _later(batch)
    else:
        finish_batch(batch_id=batch.pk)


def work_of(batch: ExportBatch) -> BackgroundWork | None:
    """The work that makes its files, where it was too large to wait for."""
    return BackgroundWork.objects.filter(key=_key(batch)).first()


def make_batch(hand: Hand, /, *, batch_id: int) -> None:
    """Its files are kept once whoever makes them, so it needs no transaction of the hand's."""
    made = finish_batch(batch_id=batch_id)
    if made.state == BatchState.FAILED:
        raise BatchFailed(made.failed_because)
    hand.at(made.lines_held, made.lines_held)


def _later(batch: ExportBatch) -> None:
    run_later(
        make_batch,
        {"batch_id": batch.pk},
        key=_key(batch),
        about=say("Export {number}", number=batch.number),
        page=reverse("export", args=[batch.pk]),
        by=batch.made_by,
    )


def _key(batch: ExportBatch) -> str:
    return f"export-batch {batch.pk}"
