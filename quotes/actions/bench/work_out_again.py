"""Working a job's quote out again with what its teardown showed, by one press."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.actions.bench.jobs import locked_job
from quotes.actions.bench.refused import NoQuote, NotInTheShop, NotStripped, OfferedAlready
from quotes.actions.books.extra_work import About, offer_extra_work
from quotes.actions.drafts import save_draft, stored
from quotes.actions.refused import QuoteClosed, RequestFaults
from quotes.actions.saving import save_checked
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.request import Request
from quotes.calc.bench.again.adds import Adds
from quotes.calc.bench.teardown.into_request import named, with_teardown
from quotes.models import Acceptance, ExtraWork, FindingSeen, Job, Quote, Step, WorkedAgain
from quotes.queries.bench.again.worked_again import (
    known_of,
    last_of,
    proposal_of,
    proposed,
    request_now,
    worked_out,
)
from quotes.queries.bench.jobs import build_of
from quotes.queries.bench.teardown.findings import standing_findings
from quotes.queries.bench.teardown.found import shown_by
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of

BEFORE_IT_IS_STRIPPED = (Step.RECEIVED, Step.LEAVE_GIVEN)


@dataclass(frozen=True, slots=True)
class Again:
    """What came of the press. `proposal` after a yes; `is_new` is False where nothing had changed."""

    quote: Quote
    is_new: bool
    proposal: WorkedAgain | None = None


def work_out_again(*, job: Job, by: User, now: datetime) -> Again:
    """Put what the teardown shows into the job's quote: its draft, or after the yes a proposal of extra work.

    Nothing is offered to the customer by it. Pressed twice with nothing new it changes nothing.
    NoQuote, NotStripped, NotInTheShop, QuoteClosed, StaleDraft, or RequestFaults with a fault for each field.
    """
    row = Job.objects.joined().get(pk=job.pk)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    if row.quote is None:
        raise NoQuote(row.number)
    if row.step in BEFORE_IT_IS_STRIPPED:
        raise NotStripped(row.number)
    build = build_of(row)
    if build is None:
        return _draft(row, row.quote, by, now)
    return _propose(row, build, by, now)


def _draft(row: Job, quote: Quote, by: User, now: datetime) -> Again:
    if quote.closed_at is not None:
        raise QuoteClosed
    before = request_of(quote)
    request = with_teardown(before, shown_by(row))
    if request == before:
        return Again(quote, is_new=False)
    _refuse_faults(request, timezone.localdate(now))
    kept = save_draft(quote=quote, request=request, expected_version=quote.version, by=by, now=now)
    return Again(kept, is_new=True)


def _refuse_faults(request: Request, on: date) -> None:
    try:
        comparison_for(request.model_copy(update={"on": on}))
    except BadRequest as bad:
        raise RequestFaults([named(fault, request) for fault in bad.faults]) from None


def _propose(row: Job, build: Acceptance, by: User, now: datetime) -> Again:
    request = request_now(build, shown_by(row))
    if request == known_of(build, last_of(row)):
        return Again(build.quote, is_new=False, proposal=proposal_of(row))
    try:
        working = worked_out(build, request, timezone.localdate(now))
    except BadRequest as bad:
        raise RequestFaults([named(fault, request) for fault in bad.faults]) from None
    return _keep(
        WorkedAgain(
            job=row,
            build=build,
            request=stored(request),
            option=working.model_dump(mode="json"),
            made_at=now,
            by=by,
        )
    )


@transaction.atomic
def _keep(made: WorkedAgain) -> Again:
    """Who comes second with the same gets what the first has kept."""
    row = locked_job(made.job)
    standing = proposal_of(row)
    if standing is not None and standing.request == made.request:
        return Again(made.build.quote, is_new=False, proposal=standing)
    return Again(made.build.quote, is_new=True, proposal=save_checked(made))


@dataclass(frozen=True, slots=True)
class Offer:
    """How a proposal is put to the customer, or done within the limit."""

    words: str
    risk: str = ""
    new_ready_on: date | None = None
    within_limit: bool = False


@transaction.atomic
def offer_worked_again(*, again: WorkedAgain, offer: Offer, by: User, now: datetime) -> ExtraWork:
    """Make extra work of a proposal; a second press gives the extra work that was made of it.

    OfferedAlready, MustAsk, DraftFaults, or ValidationError by field.
    """
    row = WorkedAgain.objects.select_for_update(of=("self",)).select_related("job", "build").get(pk=again.pk)
    if row.extra_work is not None:
        return row.extra_work
    if proposal_of(row.job) != row:
        raise OfferedAlready
    adds = proposed(row).adds
    row.extra_work = offer_extra_work(
        build=row.build,
        words=offer.words,
        risk_if_declined=offer.risk,
        lines=adds.lines,
        about=_about(row, adds, offer),
        within_limit=offer.within_limit,
        by=by,
        now=now,
    )
    row.save(update_fields=["extra_work"])
    return row.extra_work


def _about(row: WorkedAgain, adds: Adds, offer: Offer) -> About:
    """What the offer bears on, with the worst finding and its photo."""
    finding = _worst(row)
    return About(
        touches=adds.touches,
        components=adds.components,
        rider_safety=adds.rider_safety,
        new_ready_on=offer.new_ready_on,
        photo=finding.photos.first() if finding else None,
        finding=finding,
    )


def _worst(row: WorkedAgain) -> FindingSeen | None:
    """The finding that the offer shows: the worst that was seen since the yes."""
    seen = standing_findings(row.job)
    return next((one for one in seen if one.seen_at >= row.build.accepted_at), None)
