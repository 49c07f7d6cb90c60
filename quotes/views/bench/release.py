"""The hand-over: the release with its papers, for us and on the customer's own page."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.bench.releasing import card_file, note_file, release
from quotes.actions.refused import Refused
from quotes.calc.bench.leaving.release_sheet import ReleaseSheet
from quotes.forms.bench.way_out import ReleaseForm
from quotes.forms.books.refusing import refuse
from quotes.models import Job, Release
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.bench.jobs import build_of
from quotes.queries.bench.leaving.way_out import last_check, money_of_job, old_parts_agreed, release_of
from quotes.queries.rights import may
from quotes.views.bench.test_runs import the_job
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


def hand_over(request: HttpRequest, pk: int) -> HttpResponse:
    """What is still missing, and the hand-over; afterwards what was handed over."""
    job = the_job(pk)
    if (row := release_of(job)) is not None:
        return _handed_over(request, job, row)
    form = ReleaseForm(
        request.POST if request.method == "POST" else None,
        initial={"released_to": job.customer.name, "old_parts": old_parts_agreed(job)},
    )
    if request.method == "POST" and form.is_valid():
        try:
            made = release(job=job, given=form.given(), by=signed_in(request), now=timezone.now())
            messages.success(
                request,
                say("Handed over under {number}. Print the note and have it signed.", number=made.number),
            )
            return redirect("job-release", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        "job": job,
        "types": dict(engine_type_choices()),
        "form": form,
        "record": getattr(job, "record", None),
        "check": last_check(job),
        "money": money_of_job(job, timezone.localdate()),
        "declined": sorted(declined_of(job), key=lambda one: not one.rider_safety),
        "build": build_of(job),
        "is_owner": may(request.user, "hand over unpaid"),
        **money_options(),
    }
    return render(request, "quotes/bench/release.html", context)


def _handed_over(request: HttpRequest, job: Job, row: Release) -> HttpResponse:
    from quotes.documents.bench.release import note_context

    context = {
        **note_context(ReleaseSheet.model_validate(row.sheet)),
        "job": job,
        "types": dict(engine_type_choices()),
        "release": row,
    }
    return render(request, "quotes/bench/released.html", context)


@require_safe
def note(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The release note as it was stored."""
    return served(request, note_file(release=_made(the_job(pk))))


@require_safe
def card(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The running-in card as it was stored."""
    return served(request, card_file(release=_made(the_job(pk))))


def _made(job: Job) -> Release:
    row = release_of(job)
    if row is None:
        raise Http404(say("It has not been handed over."))
    return row


urlpatterns = [
    path("bench/<int:pk>/release/", hand_over, name="job-release"),
    path("bench/<int:pk>/release-note.pdf", note, name="job-release-pdf"),
    path("bench/<int:pk>/running-in.pdf", card, name="job-card-pdf"),
]
