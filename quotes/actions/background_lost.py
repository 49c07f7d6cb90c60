"""Work whose hand has gone silent, or that the queue has lost: put into the queue again."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.utils.translation import override
from django_tasks.base import TaskResultStatus
from django_tasks_db.models import DBTaskResult

from catalogue.calc.said import say
from quotes.actions.background import do_queued
from quotes.models import BackgroundWork
from quotes.models.background_work import WorkState

UNQUEUED = timedelta(minutes=1)
KEPT = timedelta(days=7)
"""The queue's own notes; the works themselves are kept."""


def take_up_lost(*, now: datetime) -> int:
    """How many works were put into the queue again."""
    silent = [
        _taken_up(work) for work in BackgroundWork.objects.silent_since(now - settings.BACKGROUND_SILENT)
    ]
    DBTaskResult.objects.finished().filter(finished_at__lt=now - KEPT).delete()
    return sum(silent) + sum(_queued_again(work) for work in _unqueued(now))


@transaction.atomic
def _taken_up(work: BackgroundWork) -> bool:
    """Whether it is queued; not where its hand gave a sign meanwhile, or another has seen to it."""
    mine = BackgroundWork.objects.filter(pk=work.pk, seen_at=work.seen_at).held_by(work.holder)
    if work.tries >= settings.BACKGROUND_TRIES:
        with override(work.language):
            because = say(
                "It was begun {count} times, and each time its process ended before it did. "
                "Nothing of it was kept.",
                count=work.tries,
            )
        mine.update(state=WorkState.FAILED, holder="", ended_at=work.seen_at, failed_because=because)
        return False
    if not mine.update(state=WorkState.WAITING, holder=""):
        return False
    do_queued.enqueue(work.pk)
    return True


def _unqueued(now: datetime) -> list[BackgroundWork]:
    """Works that wait, with no note of them in the queue: as after a copy was put back."""
    waiting = list(BackgroundWork.objects.filter(state=WorkState.WAITING, asked_at__lt=now - UNQUEUED))
    known = _queued() if waiting else frozenset()
    return [work for work in waiting if work.pk not in known]


def _queued() -> frozenset[int]:
    notes = DBTaskResult.objects.filter(status=TaskResultStatus.READY).values_list("args_kwargs", flat=True)
    return frozenset(work_id for note in notes for work_id in note["args"])


@transaction.atomic
def _queued_again(work: BackgroundWork) -> bool:
    """Under a lock on the row, so that two workers who look at once leave one note."""
    found = BackgroundWork.objects.select_for_update().filter(pk=work.pk, state=WorkState.WAITING)
    if not found or work.pk in _queued():
        return False
    do_queued.enqueue(work.pk)
    return True
