"""An engine's visit: taken in, moved on step by step, held, and tied to the quote of its work."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.refused import LeaveMissing, NotInTheShop, NotTied, NoYes
from quotes.actions.numbers import next_number
from quotes.actions.saving import checked, save_checked
from quotes.calc.bench.said import exact
from quotes.calc.bench.steps import LEAVES, comes_to, is_done
from quotes.models import Booking, Customer, Engine, Job, JobStep, Quote, ServiceKnown, Step, TeardownLeave
from quotes.queries.rights import may

SERIES = "J"
MOVED = ("step", "left_at", "hold_because", "version")


@dataclass(frozen=True, slots=True)
class Intake:
    """What was seen and said when the engine was handed over.

    `marks` are pairs of where and what: the engine number, and each case half. `service_unit` is mi, km, h or
    runs.
    """

    brought_by: str
    right_to_hand_over: str = ""
    delivered: str = "loose"
    shelf: str = ""
    tag: str = ""
    marks: tuple[tuple[str, str], ...] = ()
    came_with: tuple[str, ...] = ()
    missing: str = ""
    oil_seen: str = ""
    symptoms: str = ""
    duty: str = ""
    use_note: str = ""
    service_amount: Decimal | None = None
    service_unit: str = ""
    service_known: str = ServiceKnown.UNKNOWN


@transaction.atomic
def receive(
    *,
    engine: Engine,
    customer: Customer,
    given: Intake,
    key: UUID,
    by: User,
    now: datetime,
    booking: Booking | None = None,
    quote: Quote | None = None,
    note: str = "",
) -> Job:
    """Take an engine in; the same key again gives the job that stands. ValidationError by field, NotTied.

    `note` stands with the first step.
    """
    if standing := Job.objects.filter(key=key).first():
        return standing
    _refuse_unfit(given)
    if quote is not None:
        _refuse_other_quote(engine, quote)
    job = Job(
        key=key,
        engine=engine,
        customer=customer,
        booking=booking,
        quote=quote,
        received_at=now,
        received_by=by,
        **asdict(given),
    )
    # The row is looked through before its number is taken.
    checked(job, exclude={"number"})
    job.number = next_number(kind=SERIES, year=timezone.localdate(now).year)
    job.tag = job.tag or job.number
    save_checked(job)
    save_checked(JobStep(job=job, step=Step.RECEIVED, at=now, by=by, note=note))
    return job


def _refuse_unfit(given: Intake) -> None:
    faults = {}
    if not given.brought_by.strip():
        faults["brought_by"] = say("Nothing is given: write who handed the engine over.")
    if given.service_amount is not None and not given.service_unit:
        faults["service_unit"] = say(
            "{amount} of what? Choose miles, kilometres, hours or runs.", amount=exact(given.service_amount)
        )
    if given.service_amount is None and given.service_known != ServiceKnown.UNKNOWN:
        faults["service_amount"] = say("Nothing is given: write the figure, or choose “not known”.")
    if faults:
        raise ValidationError(faults)


def _refuse_other_quote(engine: Engine, quote: Quote) -> None:
    if quote.engine_id != engine.pk:
        raise NotTied(say("{title} is for another engine than the one that came in.", title=quote.title))
    if taken := Job.objects.filter(quote=quote).first():
        raise NotTied(
            say("{title} is the quote of {number} already.", title=quote.title, number=taken.number)
        )


def locked_job(job: Job) -> Job:
    """The job as it stands now, locked until the transaction ends."""
    return Job.objects.select_for_update().get(pk=job.pk)


@transaction.atomic
def move(*, job: Job, step: str, by: User, now: datetime, note: str = "") -> JobStep:
    """Make a step; one that comes once and is made already is given back as it stands.

    Stripping without the customer's leave takes the owner, who says why in `note`. NotInTheShop,
    LeaveMissing, NoYes, or ValidationError by field.
    """
    row = locked_job(job)
    made = list(row.steps.all())
    if is_done(step, {one.step for one in made}):
        return next(one for one in made if one.step == step)
    _refuse_step(row, step, by, note.strip())
    kept = save_checked(JobStep(job=row, step=step, at=now, by=by, note=note.strip()))
    _bring_to(row, step, now, note.strip())
    for name in MOVED:
        setattr(job, name, getattr(row, name))
    return kept


def _bring_to(row: Job, step: str, now: datetime, note: str) -> None:
    """Where the job stands after a step; any step but a pause ends one."""
    row.step = comes_to(row.step, step)
    row.left_at = now if step in LEAVES else None
    row.hold_because = note if step == Step.ON_HOLD else ""
    row.version += 1
    row.save(update_fields=MOVED)


def _refuse_step(row: Job, step: str, by: User, note: str) -> None:
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    if step == Step.ON_HOLD and not note:
        raise ValidationError({"note": say("Nothing is given: write what it waits for.")})
    if step == Step.STRIPPED and not _may_strip(row, by, note):
        raise LeaveMissing(row.number)
    if step == Step.ASSEMBLING and (row.quote is None or row.quote.accepted_at is None):
        raise NoYes(row.number)


def _may_strip(row: Job, by: User, note: str) -> bool:
    """By the customer's leave, or by the owner's word with a reason."""
    return TeardownLeave.objects.filter(job=row).exists() or (may(by, "strip without leave") and bool(note))


def hold(*, job: Job, because: str, by: User, now: datetime) -> JobStep:
    """Let a job rest, with what it waits for; a job on hold stays there with its first reason."""
    row = Job.objects.get(pk=job.pk)
    if row.hold_because:
        return row.steps.filter(step=Step.ON_HOLD).order_by("-at", "-pk")[0]
    return move(job=job, step=Step.ON_HOLD, by=by, now=now, note=because)


def go_on(*, job: Job, by: User, now: datetime, note: str = "") -> JobStep | None:
    """Take a job up again; nothing where it does not rest."""
    if not Job.objects.get(pk=job.pk).hold_because:
        return None
    return move(job=job, step=Step.GOES_ON, by=by, now=now, note=note)


def tie_waiting(*, quote: Quote, by: User, now: datetime) -> Job | None:
    """Put the engine's job under its new quote, where it stands here without one. NotTied."""
    waiting = Job.objects.in_the_shop().filter(engine=quote.engine_id, quote=None).first()
    if waiting is None or Job.objects.filter(quote=quote).exists():
        return None
    return tie_quote(job=waiting, quote=quote, by=by, now=now)


@transaction.atomic
def tie_quote(*, job: Job, quote: Quote, by: User, now: datetime) -> Job:
    """Make a quote of the same engine the one that the job's work is offered under. NotTied."""
    row = locked_job(job)
    if row.quote_id == quote.pk:
        return row
    if row.quote is not None and row.quote.accepted_at is not None:
        raise NotTied(
            say(
                "{title} was said yes to and stays the quote of {number}.",
                title=row.quote.title,
                number=row.number,
            )
        )
    _refuse_other_quote(row.engine, quote)
    row.quote = quote
    row.version += 1
    row.save(update_fields=["quote", "version"])
    job.quote, job.version = quote, row.version
    return row
