"""The assembly record of a job: what is missing, the owner's concessions, the close, and the paper."""

from __future__ import annotations

from typing import Any
from uuid import uuid5

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.bench.record import close_record, concede, record_file
from quotes.actions.bench.record_refused import RecordNotComplete
from quotes.actions.refused import Refused
from quotes.calc.bench.assembly.sheet import RecordSheet
from quotes.forms.books.payment import fresh_key
from quotes.models import AssemblyRecord, Job, Photo, PhotoAbout
from quotes.queries.bench.assembly.page import concessions, groups_shown, lacks_shown
from quotes.queries.bench.assembly.record import JobRecord, job_record
from quotes.queries.bench.assembly.sheet import stands_words, what_words
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


def job_of(pk: int) -> Job:
    return get_object_or_404(Job.objects.joined(), pk=pk)


def closed_record(job: Job) -> AssemblyRecord | None:
    return AssemblyRecord.objects.filter(job=job).select_related("closed_by", "pdf").first()


@never_cache
@require_safe
def record(request: HttpRequest, pk: int) -> HttpResponse:
    """What is missing, group by group; once it is closed, what was built."""
    return _page(request, job_of(pk))


def _page(request: HttpRequest, job: Job, **more: Any) -> HttpResponse:
    closed = closed_record(job)
    if closed is not None:
        sheet = RecordSheet.model_validate(closed.sheet)
        context = {"job": job, "closed": closed, "sheet": sheet, "photos": _photos(job)}
        return render(request, "quotes/bench/record_closed.html", context)
    asked = job_record(job)
    lacks = asked.lacks()
    context = {
        "job": job,
        "asked": asked,
        "count": len(lacks),
        "groups": groups_shown(asked, lacks),
        "lacks": lacks_shown(asked, lacks),
        "photos": _photos(job),
        "key": fresh_key(),
        "conceded": [(_about(asked, row.requirement, row.place), row) for row in concessions(asked)],
        **more,
    }
    return render(request, "quotes/bench/record.html", context)


def _photos(job: Job) -> list[Photo]:
    """Photos of the assembly, without their bytes."""
    return list(job.photos.of(PhotoAbout.ASSEMBLY).order_by("added_at", "pk"))


def _about(asked: JobRecord, code: str, place: str) -> str:
    one = asked.one(code)
    return what_words(one, place, asked) if one else code


@require_POST
def close(request: HttpRequest, pk: int) -> HttpResponse:
    """Close the record; refused, the page comes back with all that is missing."""
    job = job_of(pk)
    try:
        close_record(job=job, by=signed_in(request), now=timezone.now())
    except RecordNotComplete as wrong:
        return _page(request, job, refused=str(wrong))
    except Refused as wrong:
        messages.error(request, str(wrong))
    return redirect("record", pk)


@never_cache
def let_pass(request: HttpRequest, pk: int, code: str) -> HttpResponse:
    """The owner's word that places of one requirement may stay empty or outside."""
    job = job_of(pk)
    asked = job_record(job)
    one = asked.one(code)
    if one is None:
        raise Http404
    places = [lack.place for lack in asked.lacks() if lack.requirement.code == code]
    context: dict[str, Any] = {
        "job": job,
        "what": what_words(one, "", asked),
        "places": [(at, place, stands_words(one, place, asked)) for at, place in enumerate(places)],
        "key": fresh_key(),
        "words": request.POST.get("words", ""),
    }
    if request.method == "POST":
        picked = [place for at, place in enumerate(places) if str(at) in request.POST.getlist("at")]
        context["refused"] = _concede(request, job, code, picked)
        if not context["refused"]:
            return redirect("record", pk)
    return render(request, "quotes/bench/record_let_pass.html", context)


def _concede(request: HttpRequest, job: Job, code: str, places: list[str]) -> str:
    """What is wrong, or nothing."""
    if not places:
        return say("No place is ticked: tick those that you let pass.")
    try:
        for place in places:
            concede(
                job=job,
                requirement=code,
                place=place,
                words=request.POST.get("words", ""),
                key=uuid5(card_key(request), f"{code}:{place}"),
                by=signed_in(request),
                now=timezone.now(),
            )
    except ValidationError as wrong:
        return wrong.messages[0]
    except Refused as wrong:
        return str(wrong)
    return ""


@require_safe
def paper(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The stored paper of a closed record."""
    closed = closed_record(job_of(pk))
    if closed is None:
        raise Http404
    return served(request, record_file(record=closed))


urlpatterns = [
    path("bench/<int:pk>/record/", record, name="record"),
    path("bench/<int:pk>/record/close/", close, name="record-close"),
    path("bench/<int:pk>/record.pdf", paper, name="record-paper"),
    path("bench/<int:pk>/record/let-pass/<str:code>/", let_pass, name="record-let-pass"),
]
