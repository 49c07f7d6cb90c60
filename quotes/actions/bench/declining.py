"""The customer's no: what becomes of the engine, what is owed for the strip-down, and its way out."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.refused import AlreadyDeclined, NotDeclined, NotInTheShop, WasSaidYes
from quotes.actions.books.drafts import start_teardown
from quotes.actions.saving import save_checked
from quotes.calc.bench.teardown.price import TeardownSums
from quotes.models import (
    CalledOff,
    IfNot,
    InvoiceDraft,
    Job,
    JobStep,
    SaidHow,
    Step,
    TeardownDeclined,
    TeardownLeave,
)
from quotes.queries.bench.teardown.money import teardown_content


@dataclass(frozen=True, slots=True)
class NoSaid:
    """What becomes of the engine, who said so and how."""

    outcome: str
    name: str
    how: str
    telephone: str = ""
    words: str = ""


@transaction.atomic
def decline_job(*, job: Job, said: NoSaid, by: User, now: datetime) -> TeardownDeclined:
    """Keep the no; the same once more gives the one that stands.

    Where the engine was stripped with leave, a draft invoice of the strip-down is begun at the price agreed,
    with the deposit taken off; putting it back is on it where that is what becomes of it. NotInTheShop,
    WasSaidYes, AlreadyDeclined, or ValidationError by field.
    """
    row = locked_job(job)
    if standing := TeardownDeclined.objects.filter(job=row).first():
        if all(getattr(standing, name) == value for name, value in asdict(said).items()):
            return standing
        raise AlreadyDeclined(row.number, standing.name)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    if row.quote is not None and row.quote.accepted_at is not None:
        raise WasSaidYes(row.quote.title)
    _refuse_unsaid(said)
    draft = _draft(row, said, by, now)
    return save_checked(TeardownDeclined(job=row, **asdict(said), draft=draft, said_at=now, written_by=by))


def _refuse_unsaid(said: NoSaid) -> None:
    faults = {}
    if said.outcome not in IfNot.values:
        faults["outcome"] = say(
            "“{given}” is not one of: {allowed}.", given=said.outcome, allowed=", ".join(IfNot.values)
        )
    if not said.name.strip():
        faults["name"] = say("Nothing is given: write the full name of who says no.")
    if said.how not in SaidHow.values:
        faults["how"] = say(
            "“{given}” is not one of: {allowed}.", given=said.how, allowed=", ".join(SaidHow.values)
        )
    if said.how == SaidHow.TELEPHONE and not said.telephone.strip():
        faults["telephone"] = say("Nothing is given: write the number that was called.")
    if faults:
        raise ValidationError(faults)


def _draft(row: Job, said: NoSaid, by: User, now: datetime) -> InvoiceDraft | None:
    """Nothing is owed for what was not done, or was done without leave."""
    leave = TeardownLeave.objects.filter(job=row).first()
    if leave is None or not JobStep.objects.filter(job=row, step=Step.STRIPPED).exists():
        return None
    sums = TeardownSums(leave.price, leave.put_back_price, leave.deposit)
    put_back = said.outcome == IfNot.REASSEMBLED
    content = teardown_content(row, sums, put_back=put_back, on=timezone.localdate(now))
    return start_teardown(customer=row.customer, content=content, by=by, now=now) if content.lines else None


@transaction.atomic
def send_back(*, job: Job, by: User, now: datetime, note: str = "") -> JobStep:
    """The engine has left as was agreed on the no, or its build was called off. NotDeclined, NotInTheShop."""
    declined = TeardownDeclined.objects.filter(job=job).first()
    called_off = CalledOff.objects.filter(build__quote__job=job).exists()
    if declined is None and not called_off:
        raise NotDeclined(job.number)
    why = declined.get_outcome_display() if declined else "called off"
    said = f"{why}. {note.strip()}".strip()
    return move(job=job, step=Step.SENT_BACK, by=by, now=now, note=said)
