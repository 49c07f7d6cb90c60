"""The tablet's sheet of a strip-down; it works by plain posts too, group by group."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from uuid import UUID, uuid5

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.gzip import gzip_page
from pydantic import ValidationError as Malformed

from catalogue.calc.said import say
from quotes.actions.bench.findings import FindingTold, keep_finding, withdraw_finding
from quotes.actions.bench.readings import Read, keep_reading
from quotes.actions.refused import Refused
from quotes.forms.bench.teardown import SentFinding, SentPhoto, fault_words
from quotes.forms.books.payment import fresh_key
from quotes.models import FindingSeen, Instrument, Job, Judged, ServiceUnit
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.bench.teardown.page import (
    field_name,
    findings_offered,
    findings_seen,
    instruments_in_use,
    own_readings,
    page_groups,
)
from quotes.queries.bench.teardown.sheet import JobSheet, job_sheet
from quotes.views.bench.teardown_take import keep_sent_photo
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


@never_cache
@gzip_page  # An eighth of the size on a slow line. Its padding hides lengths, and the token is masked.
def teardown(request: HttpRequest, pk: int) -> HttpResponse:
    """The sheet; a post keeps one group's readings, one finding, or takes one back."""
    job = get_object_or_404(Job.objects.joined(), pk=pk)
    sheet = job_sheet(job, scale=request.POST.get("scale", request.GET.get("scale", "")))
    if request.method != "POST":
        return _page(request, job, sheet)
    if "withdraw" in request.POST:
        return _withdraw(request, job)
    return _finding(request, job, sheet) if "judging" in request.POST else _readings(request, job, sheet)


def _page(request: HttpRequest, job: Job, sheet: JobSheet, **more: Any) -> HttpResponse:
    typed, faults = more.get("typed", {}), more.get("faults", {})
    context = {
        "job": job,
        "sheet": sheet,
        "groups": page_groups(job, sheet, typed=typed, faults=faults),
        "own": own_readings(job, sheet),
        "instruments": instruments_in_use(),
        "findings": findings_offered(catalogue_of(job)),
        "seen": findings_seen(job),
        "judged": Judged.choices,
        "units_of_use": ServiceUnit.choices,
        "made": timezone.now().timestamp(),
        "key": fresh_key(),
        **more,
    }
    return render(request, "quotes/bench/teardown.html", context)


def _readings(request: HttpRequest, job: Job, sheet: JobSheet) -> HttpResponse:
    """What was typed anew in one group; what is refused stands at its field, and the rest is kept."""
    picked = request.POST.get("instrument", "")
    instrument = Instrument.objects.filter(pk=picked).first() if picked.isdecimal() else None
    form_key, faults = card_key(request), {}
    for name, read in _typed(request.POST, job, sheet).items():
        try:
            keep_reading(
                job=job,
                read=read,
                key=uuid5(form_key, f"{name}={read.entered}{read.unit}"),
                by=signed_in(request),
                now=timezone.now(),
                instrument=instrument,
            )
        except ValidationError as wrong:
            faults[name] = wrong.messages[0]
        except Refused as wrong:
            faults[name] = str(wrong)
    if faults:
        return _page(request, job, sheet, typed=request.POST.dict(), faults=faults)
    messages.success(request, say("Kept."))
    return redirect("teardown", job.pk)


def _typed(post: Mapping[str, str], job: Job, sheet: JobSheet) -> dict[str, Read]:
    """Fields that hold something other than what stands."""
    fresh = {}
    for part in page_groups(job, sheet):
        for block in part.blocks:
            unit = post.get(f"unit:{block.row.code}", block.unit)
            for at, cell in enumerate(block.cells):
                name = field_name(block.row, at)
                entered = post.get(name, "").strip()
                if entered and (entered, unit) != (cell.entered, block.unit):
                    fresh[name] = Read(entered=entered, unit=unit, code=block.row.code, place=cell.place)
    if post.get("own-entered", "").strip():
        told = {one: post.get(f"own-{one}", "") for one in ("entered", "unit", "component", "name", "place")}
        fresh["own"] = Read(**told)
    return fresh


def _finding(request: HttpRequest, job: Job, sheet: JobSheet) -> HttpResponse:
    """A finding, with its photo where one came along."""
    data = {name: value for name, value in request.POST.dict().items() if value.strip()}
    key = card_key(request)
    try:
        sent = SentFinding.model_validate({**data, "kind": "finding", "key": key})
        seen = FindingTold(**sent.model_dump(exclude={"kind", "key", "age"}))
        keep_finding(job=job, seen=seen, key=key, by=signed_in(request), now=timezone.now())
        if file := request.FILES.get("photo"):
            photo = SentPhoto(key=uuid5(key, "photo"), finding=key, place=seen.place)
            keep_sent_photo(request, job, photo, file)
    except Malformed as malformed:
        return _page(request, job, sheet, refused=fault_words(malformed)[1], told=data)
    except ValidationError as wrong:
        return _page(request, job, sheet, refused=wrong.messages[0], told=data)
    except Refused as wrong:
        return _page(request, job, sheet, refused=str(wrong), told=data)
    messages.success(request, say("Kept."))
    return redirect("teardown", job.pk)


def _withdraw(request: HttpRequest, job: Job) -> HttpResponse:
    rows = FindingSeen.objects.filter(job=job)
    finding = get_object_or_404(rows, key=_uuid(request.POST["withdraw"]))
    try:
        withdraw_finding(
            finding=finding,
            because=request.POST.get("because", ""),
            by=signed_in(request),
            now=timezone.now(),
        )
    except ValidationError as wrong:
        messages.error(request, wrong.messages[0])
    return redirect("teardown", job.pk)


def _uuid(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


urlpatterns = [path("bench/<int:pk>/teardown/", teardown, name="teardown")]
