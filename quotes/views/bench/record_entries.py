"""The tablet's pages of the assembly record: one group of components, each part with its own press."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from uuid import uuid5

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.gzip import gzip_page

from catalogue.calc.said import say, say_count, to_say
from quotes.actions.bench.record import SAID, Written, keep_entry
from quotes.actions.refused import Refused
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.forms.books.payment import fresh_key
from quotes.models import Instrument, Job
from quotes.queries.bench.assembly.page import (
    NOTHING_TYPED,
    Typed,
    field_name,
    group_name,
    group_of,
    groups_shown,
    mark_of,
    parts_shown,
    standing,
)
from quotes.queries.bench.assembly.record import JobRecord, job_record
from quotes.queries.bench.teardown.page import instruments_in_use
from quotes.queries.rights import may_open
from quotes.views.bench.record import closed_record, job_of
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in

NOTHING_NEW = to_say(
    "Nothing new was written. A figure keeps its unit: to write it in another, empty its field first."
)
CHOSEN = "record_instrument"
"""The instrument last chosen, kept with the sign-in so that it is chosen once."""


@never_cache
@gzip_page  # An eighth of the size on a slow line. Its padding hides lengths, and the token is masked.
def record_group(request: HttpRequest, pk: int, group: str) -> HttpResponse:
    """The components of one group; a post keeps what was written of one of them."""
    job = job_of(pk)
    if closed_record(job) is not None:
        if request.method == "POST":
            messages.error(request, say("The record is closed: nothing more was kept."))
        return redirect("record", pk)
    record = job_record(job)
    if group not in {group_of(one, record) for one in record.requirements}:
        raise Http404
    if request.method != "POST":
        return _page(request, job, record, group)
    return _keep(request, job, record, group)


def _page(
    request: HttpRequest, job: Job, record: JobRecord, group: str, typed: Typed = NOTHING_TYPED
) -> HttpResponse:
    groups = groups_shown(record, record.lacks())
    at = next(number for number, one in enumerate(groups) if one.code == group)
    context = {
        "job": job,
        "group": group,
        "name": group_name(group),
        "groups": groups,
        "next": groups[at + 1] if at + 1 < len(groups) else None,
        "parts": parts_shown(record, group, typed),
        "instruments": instruments_in_use(),
        "chosen": request.session.get(CHOSEN, ""),
        "today": timezone.localdate(),
        "may_write": may_open(request.user, "record-group", post=True),
        "key": fresh_key(),
        "faults": len(typed.faults),
    }
    return render(request, "quotes/bench/record_group.html", context)


def _keep(request: HttpRequest, job: Job, record: JobRecord, group: str) -> HttpResponse:
    """Each entry by itself; what is refused stands at its field, and the rest is kept."""
    instrument = _instrument(request)
    form_key, faults, kept = card_key(request), {}, 0
    component = request.POST.get("component", "")
    asked = [one for one in record.requirements if one.component == component]
    for name, written in _typed(request.POST, asked, record):
        try:
            keep_entry(
                job=job,
                written=written,
                key=uuid5(form_key, f"{name}={written}"),
                by=signed_in(request),
                now=timezone.now(),
                instrument=instrument,
                record=record,
            )
            kept += 1
        except ValidationError as wrong:
            faults[name] = wrong.messages[0]
        except Refused as wrong:
            faults[name] = str(wrong)
    if faults:
        return _page(request, job, job_record(job), group, Typed(request.POST.dict(), faults))
    words = say_count("{count} entry kept.", "{count} entries kept.", kept) if kept else say(NOTHING_NEW)
    messages.success(request, words)
    return redirect(f"{reverse('record-group', args=[job.pk, group])}#c-{component}")


def _instrument(request: HttpRequest) -> Instrument | None:
    picked = request.POST.get("instrument")
    if picked is None:
        return None
    request.session[CHOSEN] = picked if picked.isdecimal() else ""
    return Instrument.objects.filter(pk=picked).first() if picked.isdecimal() else None


def _typed(
    post: Mapping[str, str], asked: Iterable[Requirement], record: JobRecord
) -> Iterable[tuple[str, Written]]:
    """Fields that hold something other than what stands, as an entry each."""
    for one in asked:
        for at, place in enumerate(one.places):
            name = field_name(one, at)
            written = _written(post, name, one, place, record)
            if written is not None:
                yield name, written


def _written(
    post: Mapping[str, str], name: str, one: Requirement, place: str, record: JobRecord
) -> Written | None:
    """What was changed on the page; what somebody else has changed meanwhile is left as it is.

    A figure keeps the unit that it was written in: another one picked for the next figure does not turn it.
    """
    entered, was = post.get(name, "").strip(), post.get(f"was:{name}", "")
    if not entered:
        back = bool(was) and standing(record, one, place) is not None
        return Written(one.code, place, taken_back=True) if back else None
    unit = post.get(f"unit:{one.code}", "")
    number, batch = post.get(f"p:{one.code}", "").strip(), post.get(f"b:{one.code}", "").strip()
    stood_in = was.split("|")[1] if one.kind == "figure" and was.startswith(f"{entered}|") else unit
    if mark_of(SAID.get(one.kind, entered), stood_in, number, batch) == was:
        return None
    return Written(one.code, place, entered, unit, number, batch)


urlpatterns = [path("bench/<int:pk>/record/<slug:group>/", record_group, name="record-group")]
