"""The customer's own page, the engine in our hands: its receipt, the leave to strip, and its release."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.actions.bench.intake_receipts import give_receipt, intake_receipt_file
from quotes.actions.bench.leave import leave_file
from quotes.actions.bench.releasing import card_file, note_file
from quotes.models import Acceptance, Job, Release
from quotes.queries.bench.parts.wanted import with_sheet
from quotes.queries.bench.ready import promised_and_now, ready_of
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.every_request.stored_answer import download


@dataclass(frozen=True, slots=True)
class EngineHere:
    """What the page says of the engine; `leave` is empty while none was given.

    `note`, `card` and `service` are where its release note, its running-in card and what it runs since are;
    empty before it was handed over. `ready` is the day promised beside the one that holds as things stand;
    empty once it is done or gone.
    """

    job: Job
    receipt: str
    leave: str
    ready: str = ""
    note: str = ""
    card: str = ""
    service: str = ""


def engine_shown(opened: OpenedLink) -> EngineHere | None:
    """The engine of this quote, once it was taken in; one query while it was not."""
    rows = Job.objects.filter(quote=opened.quote).select_related("leave", "release").defer("release__sheet")
    job = rows.first()
    if job is None:
        return None
    leave = opened.address("customer-leave-pdf") if getattr(job, "leave", None) else ""
    here = EngineHere(job, opened.address("customer-engine-pdf"), leave, _ready(job))
    if not hasattr(job, "release"):
        return here
    return replace(
        here,
        note=opened.address("customer-release-pdf"),
        card=opened.address("customer-card-pdf"),
        service=opened.address("customer-service"),
    )


def _ready(job: Job) -> str:
    rows = with_sheet(Acceptance.objects.in_hand().filter(quote=job.quote_id))
    build = rows.first() if job.left_at is None else None
    found = ready_of(build, timezone.localdate()) if build else None
    return promised_and_now(found) if found else ""


def _job(opened: OpenedLink) -> Job | None:
    rows = Job.objects.filter(quote=opened.quote)
    return rows.select_related("engine", "customer", "received_by", "leave__pdf").first()


@by_link
@require_safe
def receipt(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """The receipt as the job stands now; before the engine came, the quote."""
    job = _job(opened)
    if job is None:
        return redirect(opened.address("customer-quote"))
    given = give_receipt(job=job, by=None, now=timezone.now())
    return download(intake_receipt_file(receipt=given))


@by_link
@require_safe
def leave(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """The leave to strip as it was given; before that, the quote."""
    job = _job(opened)
    given = getattr(job, "leave", None)
    if given is None:
        return redirect(opened.address("customer-quote"))
    return download(leave_file(leave=given))


@by_link
@require_safe
def release_note(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """The release note; before the hand-over, the quote."""
    row = _release(opened)
    return download(note_file(release=row)) if row else redirect(opened.address("customer-quote"))


@by_link
@require_safe
def running_in_card(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """How it is run in; before the hand-over, the quote."""
    row = _release(opened)
    return download(card_file(release=row)) if row else redirect(opened.address("customer-quote"))


def _release(opened: OpenedLink) -> Release | None:
    return Release.objects.filter(job__quote=opened.quote).select_related("pdf", "card").first()


urlpatterns = [
    path("q/<str:token>/engine.pdf", receipt, name="customer-engine-pdf"),
    path("q/<str:token>/leave.pdf", leave, name="customer-leave-pdf"),
    path("q/<str:token>/release-note.pdf", release_note, name="customer-release-pdf"),
    path("q/<str:token>/running-in.pdf", running_in_card, name="customer-card-pdf"),
]
