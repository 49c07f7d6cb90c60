"""The engines on the bench: the list of jobs, and a job's own page in the order of its work."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.queries import duty_choices, engine_type_choices
from quotes.actions.bench.jobs import go_on, hold, move, tie_quote
from quotes.actions.refused import Refused
from quotes.calc.bench.state import OURS, job_state
from quotes.filters.bench.jobs import GONE, JobFilter
from quotes.forms.bench.jobs import StepForm, TieForm
from quotes.forms.books.payment import fresh_key
from quotes.models import Enquiry, Job, Step
from quotes.models.bench.job import JobQuerySet
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.bench.ages.outcomes import service_to_tell
from quotes.queries.bench.areas import job_lines
from quotes.queries.bench.intake import jobs_of_type
from quotes.queries.bench.job_page import as_received, next_step, quotes_to_tie, stamped_other, step_rows
from quotes.queries.bench.jobs import jobs_listed
from quotes.queries.bench.states import facts_of
from quotes.queries.rights import may
from quotes.tables.bench.jobs import JobTable
from quotes.views.bench.intake_photos import intake_photos
from quotes.views.every_request.person import signed_in
from quotes.views.table_page import TablePage

BY_HAND = (Step.STRIPPED, Step.ASSEMBLING, Step.TESTING)
"""Steps that are made by a press on the job's page; the others come with their paper."""


class JobList(TablePage):
    """Every engine that is here; what has left is asked for."""

    title = _("Bench")
    one = _("engine")
    many = _("engines")
    table_class = JobTable
    filterset_class = JobFilter
    template_name = "quotes/bench/jobs.html"

    def rows(self) -> JobQuerySet:
        return jobs_listed(timezone.localdate())

    def get_filterset_kwargs(self, filterset_class: Any) -> dict[str, Any]:
        """Narrowed even where nothing was asked: to the engines that are here."""
        options: dict[str, Any] = super().get_filterset_kwargs(filterset_class)
        return options | {"data": options.get("data") or {"where": ""}}

    def get_table_kwargs(self) -> dict[str, Any]:
        """The day of leaving stands only where engines that have left may be in the list."""
        asked = self.request.GET
        left = asked.get("where") or asked.get("state") in GONE
        return {"engine_types": dict(engine_type_choices()), "exclude": () if left else ("left_at",)}


@require_safe
def job(request: HttpRequest, pk: int) -> HttpResponse:
    """A job, in the order of its work."""
    return _page(request, _row(pk))


def _row(pk: int) -> Job:
    rows = Job.objects.joined().select_related("leave", "went_no_further", "received_by", "release")
    return get_object_or_404(rows.defer("quote__request", "release__sheet"), pk=pk)


def _page(request: HttpRequest, row: Job, **more: Any) -> HttpResponse:
    facts, on = facts_of(row), timezone.localdate()
    state, lines = job_state(facts), job_lines(row, on)
    context = {
        "job": row,
        "state": state,
        "ours": state in OURS,
        "types": dict(engine_type_choices()),
        "duties": dict(duty_choices()),
        "lines": lines,
        "steps": step_rows(row),
        "next": next_step(row, facts, lines),
        "asked_by": _enquiry_of(row),
        "by_hand": _by_hand(row),
        "as_received": as_received(row),
        "photos": intake_photos(row),
        "declined": declined_of(row),
        "stamped_other": stamped_other(row),
        "alike": jobs_of_type(row.engine.type_code, row.pk) if row.left_at is None else (),
        "tie": TieForm(quotes_to_tie(row)),
        "to_tell": service_to_tell(row),
        "key": fresh_key(),
        "step_form": StepForm(),
        "may_work": may(request.user, "work on a job"),
        **more,
    }
    return render(request, "quotes/bench/job.html", context)


def _enquiry_of(row: Job) -> Enquiry | None:
    """The enquiry that the engine came by, while no quote has come of it."""
    if row.quote_id is not None or row.booking is None:
        return None
    asked = Enquiry.objects.filter(
        pk=row.booking.enquiry_id, quote=None, dropped_at=None, engine=row.engine_id
    )
    return asked.first()


def _by_hand(row: Job) -> tuple[Step, str] | None:
    """The step that can be made without what should come before it."""
    if row.step == Step.LEAVE_GIVEN:
        return Step.STRIPPED, say("It is stripped and measured")
    if row.step in (Step.STRIPPED, Step.FINDINGS) and row.quote is not None and row.quote.accepted_at:
        return Step.ASSEMBLING, say("Assembly begins")
    return None


@require_POST
def step(request: HttpRequest, pk: int) -> HttpResponse:
    """Move the job on, let it rest or take it up again."""
    row, form = _row(pk), StepForm(request.POST)
    asked = request.POST.get("step", "")
    if not form.is_valid():
        return _page(request, row, step_form=form)
    try:
        _make(request, row, asked, form.cleaned_data["note"])
    except Refused as refused:
        return _page(request, row, step_form=form, refused=str(refused))
    except ValidationError as wrong:
        form.add_error("note", wrong.messages[0])
        return _page(request, row, step_form=form)
    return redirect("job", pk)


def _make(request: HttpRequest, row: Job, asked: str, note: str) -> None:
    by, now = signed_in(request), timezone.now()
    if asked == Step.ON_HOLD:
        hold(job=row, because=note, by=by, now=now)
    elif asked == Step.GOES_ON:
        go_on(job=row, by=by, now=now, note=note)
    elif asked in BY_HAND:
        move(job=row, step=asked, by=by, now=now, note=note)
        messages.success(request, f"{row.number}: {Step(asked).label}.")
    else:
        raise Refused(say("“{step}” is no step that is made here.", step=asked[:20]))


@require_POST
def tie(request: HttpRequest, pk: int) -> HttpResponse:
    """Put the job under a quote of its engine."""
    row = _row(pk)
    form = TieForm(quotes_to_tie(row), request.POST)
    if not form.is_valid():
        return _page(request, row, tie=form)
    try:
        tie_quote(job=row, quote=form.picked(), by=signed_in(request), now=timezone.now())
    except Refused as refused:
        return _page(request, row, tie=form, refused=str(refused))
    return redirect("job", pk)


urlpatterns = [
    path("bench/", JobList.as_view(), name="bench"),
    path("bench/<int:pk>/", job, name="job"),
    path("bench/<int:pk>/step/", step, name="job-step"),
    path("bench/<int:pk>/quote/", tie, name="job-tie"),
]
