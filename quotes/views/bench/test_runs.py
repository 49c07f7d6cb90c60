"""After the assembly: tests on the dyno and off it, the last look, and how each engine type is run in."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.bench.testing import keep_check, keep_run, set_running_in
from quotes.actions.refused import Refused
from quotes.forms.bench.way_out import CheckForm, RunForm, RunningInForm, value_rows
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Job, RunningInRule, TestRun
from quotes.queries.bench.ages.new_lives import new_lives_of
from quotes.queries.bench.leaving.way_out import (
    POWER_AFTER,
    RUNS,
    answers_of,
    cylinders_of,
    last_check,
    money_of_job,
    power_compared,
)
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


def the_job(pk: int) -> Job:
    return get_object_or_404(Job.objects.joined().defer("quote__request"), pk=pk)


@require_safe
def listed(request: HttpRequest, pk: int) -> HttpResponse:
    """The tests of a job, its power before and after, and the last look."""
    job = the_job(pk)
    look = last_check(job)
    context = {
        "job": job,
        "types": dict(engine_type_choices()),
        "runs": list(TestRun.objects.filter(job=job).select_related("by").order_by("on", "pk")),
        "kinds": RUNS,
        "compared": power_compared(job),
        "check": look,
        "answers": answers_of(look) if look else (),
    }
    return render(request, "quotes/bench/tests.html", context)


def new(request: HttpRequest, pk: int) -> HttpResponse:
    """Write a test down; `?name=` says which, and its usual figures stand ready."""
    job, today = the_job(pk), timezone.localdate()
    data = request.POST if request.method == "POST" else None
    name = request.GET.get("name", "")
    name = name if name in RUNS else ""
    form = RunForm(data, today, initial=_usual(job, name) | {"name": name, "on": today})
    rows = value_rows(data, name, cylinders_of(job))
    if data is not None and form.is_valid() and rows.is_valid():
        try:
            keep_run(
                job=job, run=form.run(rows), key=card_key(request), by=signed_in(request), now=timezone.now()
            )
            return redirect("job-test", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        "job": job,
        "types": dict(engine_type_choices()),
        "form": form,
        "rows": rows,
        "name": name,
        "key": request.POST.get("key") or fresh_key(),
    }
    return render(request, "quotes/bench/test_new.html", context)


def _usual(job: Job, name: str) -> dict[str, Any]:
    """A power after is run where the one before was, if it is to say anything."""
    before = TestRun.objects.filter(job=job).exclude(dyno="").order_by("on", "pk").last()
    if before is None or name != POWER_AFTER:
        return {}
    return {"dyno": before.dyno, "correction": before.correction}


def check(request: HttpRequest, pk: int) -> HttpResponse:
    """The last look before it leaves."""
    job, on = the_job(pk), timezone.localdate()
    data = request.POST if request.method == "POST" else None
    form = CheckForm(data, new_lives_of(job), initial={"bore": "plated"})
    if data is not None and form.is_valid():
        try:
            keep_check(
                job=job,
                looked=form.looked(),
                key=card_key(request),
                by=signed_in(request),
                now=timezone.now(),
            )
            messages.success(request, say("{number} is ready.", number=job.number))
            return redirect("job-release", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        "job": job,
        "types": dict(engine_type_choices()),
        "form": form,
        "money": money_of_job(job, on),
        "key": request.POST.get("key") or fresh_key(),
    }
    return render(request, "quotes/bench/final_check.html", context)


@require_safe
def rules(request: HttpRequest) -> HttpResponse:
    """How each engine type is run in: by the manual, as the workshop does it, or by common practice."""
    known = {row.type_code: row for row in RunningInRule.objects.all()}
    types = [(code, name, known.get(code)) for code, name in engine_type_choices()]
    return render(request, "quotes/bench/running_in_rules.html", {"types": types})


def rule(request: HttpRequest, type_code: str) -> HttpResponse:
    """The figures of one type, and whose they are."""
    names = dict(engine_type_choices())
    if type_code not in names:
        return redirect("running-in-rules")
    row = RunningInRule.objects.filter(type_code=type_code).first()
    data = request.POST if request.method == "POST" else None
    if data is not None and "back" in data:
        set_running_in(type_code=type_code, given=None)
        return redirect("running-in-rules")
    form = RunningInForm(data, prefix="rule", initial=_kept(row) if row else {})
    if data is not None and form.is_valid():
        try:
            set_running_in(type_code=type_code, given=form.given())
            messages.success(request, say("Running-in of {name} is kept.", name=names[type_code]))
            return redirect("running-in-rules")
        except ValidationError as wrong:
            refuse(form, wrong)
    context = {"form": form, "name": names[type_code], "row": row}
    return render(request, "quotes/bench/running_in_rule.html", context)


def _kept(row: RunningInRule) -> dict[str, Any]:
    names = ("unit", "rev_limit_pct", "revs_until", "oil_at", "recheck_at", "manual", "page", "words")
    return {name: getattr(row, name) for name in names}


urlpatterns = [
    path("bench/<int:pk>/test/", listed, name="job-test"),
    path("bench/<int:pk>/test/new/", new, name="job-test-new"),
    path("bench/<int:pk>/check/", check, name="job-check"),
    path("bench/running-in/", rules, name="running-in-rules"),
    path("bench/running-in/<str:type_code>/", rule, name="running-in-rule"),
]
