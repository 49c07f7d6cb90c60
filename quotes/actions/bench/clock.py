"""The clock on the bench: started and stopped by hand; one left running is asked about, never counted."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.refused import ClockForgotten, NotInTheShop, WaitsForAnswer
from quotes.actions.books.worked_hours import keep_hours
from quotes.actions.saving import save_checked
from quotes.calc.bench.clock import LONGEST_HOURS, hours_between, left_running
from quotes.calc.bench.said import exact
from quotes.models import Acceptance, ClockRun, Job, WorkedHours
from quotes.queries.bench.again.committed import stopped_operations


@transaction.atomic
def start_clock(*, job: Job, operation: str, key: UUID, by: User, now: datetime) -> ClockRun:
    """Start a person's clock on an operation of a job; a clock of his that runs elsewhere is stopped.

    The same key again gives the run that was begun. ClockForgotten where the other clock was left running,
    WaitsForAnswer where the operation may not go on before the customer has answered, NotInTheShop.
    """
    if begun := ClockRun.objects.filter(key=key).first():
        return begun
    _refuse(job, operation)
    if other := ClockRun.objects.running().select_for_update(of=("self",)).filter(person=by).first():
        if (other.job_id, other.operation) == (job.pk, operation):
            return other
        stop_clock(run=other, now=now)
    return save_checked(ClockRun(key=key, job=job, operation=operation, person=by, started_at=now))


def _refuse(job: Job, operation: str) -> None:
    if job.left_at is not None:
        raise NotInTheShop(job.number)
    build = _build_of(job)
    if build is not None and (extra := stopped_operations(build).get(operation)):
        raise WaitsForAnswer(extra.number, extra.words)


@transaction.atomic
def stop_clock(*, run: ClockRun, now: datetime) -> ClockRun:
    """Stop a clock; what it ran becomes hours of its person on its day. Less than a minute is nothing.

    ClockForgotten where it ran past midnight or for longer than a spell of work: `settle_clock` asks.
    """
    row = _locked(run)
    if row.stopped_at is not None:
        return row
    if left_running(timezone.localtime(row.started_at), timezone.localtime(now)):
        raise ClockForgotten(timezone.localtime(row.started_at), row.operation)
    return _stopped(row, hours_between(row.started_at, now), now, "")


@transaction.atomic
def settle_clock(*, run: ClockRun, hours: Decimal, words: str, now: datetime) -> ClockRun:
    """Put an end to a clock that was left running, with the hours that were really worked; nought is none.

    ValidationError by field for hours that it can't have been, or without a word on what happened.
    """
    row = _locked(run)
    if row.stopped_at is not None:
        return row
    # Where the machine's clock was set back, it may have been any spell of work.
    most = hours_between(row.started_at, now) if now >= row.started_at else Decimal(LONGEST_HOURS)
    if not ZERO <= hours <= most:
        raise ValidationError(
            {
                "hours": say(
                    "{hours} h: the clock ran {most} h, so 0 to {most} are allowed.",
                    hours=exact(hours),
                    most=exact(most),
                )
            }
        )
    if not words.strip():
        raise ValidationError({"words": say("Nothing is given: say what happened, in a few words.")})
    return _stopped(row, hours, now, words.strip())


def _locked(run: ClockRun) -> ClockRun:
    rows = ClockRun.objects.select_for_update(of=("self",)).select_related("job", "person")
    return rows.get(pk=run.pk)


def _stopped(row: ClockRun, hours: Decimal, now: datetime, words: str) -> ClockRun:
    row.stopped_at, row.settled = max(now, row.started_at), words
    if hours > ZERO:
        worked = WorkedHours(
            build=_build_of(row.job),
            job=row.job,
            operation=row.operation,
            person=row.person,
            on=timezone.localdate(row.started_at),
            note=words[:200],
        )
        row.worked = keep_hours(row=worked, hours=hours, by=row.person, now=now)
    row.save(update_fields=["stopped_at", "settled", "worked"])
    return row


def _build_of(job: Job) -> Acceptance | None:
    return Acceptance.objects.filter(quote=job.quote_id).first() if job.quote_id else None
