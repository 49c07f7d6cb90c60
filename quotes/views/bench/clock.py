"""The clock on the bench: one large press starts it on a piece of work, another stops it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from quotes.actions.bench.clock import settle_clock, start_clock, stop_clock
from quotes.actions.bench.refused import ClockForgotten
from quotes.actions.refused import Refused
from quotes.forms.bench.work import SettleForm
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import ClockRun, Job
from quotes.queries.bench.clock import clock_of_job, forgotten, running_of
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


@require_safe
def clock(request: HttpRequest, pk: int) -> HttpResponse:
    """The clock of one job: its work in order, what has been clocked, and what runs."""
    return _page(request, get_object_or_404(Job.objects.joined(), pk=pk))


def _page(request: HttpRequest, job: Job, **more: Any) -> HttpResponse:
    now = timezone.now()
    context = {
        "job": job,
        "mine": running_of(request.user.pk),
        "forgotten": [run for run in forgotten(now) if run.person_id == request.user.pk],
        "clock": clock_of_job(job),
        "settle_form": SettleForm(prefix="settle"),
        "key": fresh_key(),
        **more,
    }
    return render(request, "quotes/bench/clock.html", context)


@require_POST
def start(request: HttpRequest, pk: int) -> HttpResponse:
    """Start it; a clock that ran elsewhere stops."""
    job = get_object_or_404(Job, pk=pk)
    try:
        start_clock(
            job=job,
            operation=request.POST.get("operation", "")[:64],
            key=card_key(request),
            by=signed_in(request),
            now=timezone.now(),
        )
    except ClockForgotten:
        pass  # The page that follows asks about it.
    except Refused as refused:
        messages.error(request, str(refused))
    return redirect("clock", pk)


@require_POST
def stop(request: HttpRequest, pk: int) -> HttpResponse:
    """Stop one's own clock; one that was left running is asked about on the page."""
    run = get_object_or_404(ClockRun, pk=pk, person=signed_in(request))
    try:
        stop_clock(run=run, now=timezone.now())
    except ClockForgotten:
        pass  # The page that follows asks about it.
    except ValidationError as wrong:
        messages.error(request, " ".join(wrong.messages))
    return redirect("clock", run.job_id)


@require_POST
def settle(request: HttpRequest, pk: int) -> HttpResponse:
    """Say how long it really took; the owner may say it for somebody else."""
    run = get_object_or_404(ClockRun.objects.select_related("job"), pk=pk)
    form = SettleForm(request.POST, prefix="settle")
    if form.is_valid():
        told = form.cleaned_data
        try:
            settle_clock(run=run, hours=told["hours"], words=told["words"], now=timezone.now())
            return redirect("clock", run.job_id)
        except ValidationError as wrong:
            refuse(form, wrong)
    job = get_object_or_404(Job.objects.joined(), pk=run.job_id)
    return _page(request, job, settle_form=form, forgotten=[run])


urlpatterns = [
    path("bench/<int:pk>/clock/", clock, name="clock"),
    path("bench/<int:pk>/clock/start/", start, name="clock-start"),
    path("bench/clock/<int:pk>/stop/", stop, name="clock-stop"),
    path("bench/clock/<int:pk>/settle/", settle, name="clock-settle"),
]
