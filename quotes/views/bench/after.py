"""What falls due, by month, with a reminder ready to send; and the failure report of an engine."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone, translation
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from quotes.actions.bench.after import Failure, keep_failure, keep_reminder
from quotes.documents.bench.reminder import reminder_text
from quotes.forms.bench.after import ReminderForm, failure_form
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import as_of
from quotes.models import Engine, FailureReport, Workshop
from quotes.queries.bench.ages.after import EngineDue, due_list, due_of, with_after
from quotes.queries.bench.ages.outcomes import last_untold
from quotes.queries.engines import known_catalogue
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


@require_safe
def due(request: HttpRequest) -> HttpResponse:
    """Engines that have left, by the month in which something falls due."""
    on = timezone.localdate()
    months: dict[date, list[EngineDue]] = defaultdict(list)
    unknown = []
    for one in due_list(on):
        if one.first is None:
            unknown.append(one)
        else:
            months[max(one.first.on, on).replace(day=1)].append(one)
    context = {"months": sorted(months.items()), "unknown": unknown, "today": on}
    return render(request, "quotes/bench/due.html", context)


def engine_due(request: HttpRequest, pk: int) -> HttpResponse:
    """Everything that falls due on one engine, and the reminder; a post keeps that it was sent."""
    engine = _engine(pk)
    on = timezone.localdate()
    found = due_of(engine, on)
    form = ReminderForm(request.POST if request.method == "POST" else None, initial={"words": _text(found)})
    if form.is_bound and form.is_valid():
        first_on = found.first.on if found.first else None
        keep_reminder(
            engine=engine,
            words=form.cleaned_data["words"],
            due_on=first_on,
            by=signed_in(request),
            now=timezone.now(),
        )
        messages.success(request, say("Kept: the reminder was sent today."))
        return redirect("engine-due", pk)
    context = {"due": found, "engine": engine, "form": form, "to_tell": last_untold(engine)}
    return render(request, "quotes/bench/engine_due.html", context)


def _engine(pk: int) -> Engine:
    return get_object_or_404(with_after(Engine.objects.filter(pk=pk)).select_related("customer"))


def _text(found: EngineDue) -> str:
    if found.first is None:
        return ""
    workshop = Workshop.objects.get_or_default()
    with translation.override(found.engine.customer.reads):
        return reminder_text(
            workshop=workshop.name,
            telephone=workshop.telephone,
            customer=found.engine.customer.name,
            engine=" ".join(filter(None, (found.type_name, found.engine.number))),
            first=found.first,
            along=found.bundle,
            reported_on=found.reported.on if found.reported else None,
        )


def new_failure(request: HttpRequest, pk: int) -> HttpResponse:
    """Write a failure report."""
    engine = _engine(pk)
    data = request.POST if request.method == "POST" else None
    form = failure_form(data, _components(engine), initial={"on": timezone.localdate()})
    as_of(form, timezone.localdate())
    if data is not None and form.is_valid():
        try:
            made = _kept(request, engine, form)
            return redirect("failure", made.pk)
        except ValidationError as wrong:
            refuse(form, wrong)
    context: dict[str, Any] = {
        "engine": engine,
        "form": form,
        "key": request.POST.get("key") or fresh_key(),
        "jobs": engine.jobs.all(),
    }
    return render(request, "quotes/bench/failure_new.html", context)


def _components(engine: Engine) -> list[tuple[str, str]]:
    catalogue = known_catalogue(engine.type_code)
    return [(one.code, one.name) for one in catalogue.components.values()] if catalogue else []


def _kept(request: HttpRequest, engine: Engine, form: Any) -> FailureReport:
    told = {name: value for name, value in form.cleaned_data.items() if name != "seal_whole"}
    key: UUID = card_key(request)
    failure = Failure(**told, seal_whole=form.seal())
    return keep_failure(engine=engine, told=failure, key=key, by=signed_in(request), now=timezone.now())


@require_safe
def failure(request: HttpRequest, pk: int) -> HttpResponse:
    """One report, with the way to every piece of evidence."""
    rows = FailureReport.objects.select_related("engine__customer", "job", "comeback_job", "by")
    row = get_object_or_404(rows, pk=pk)
    names = dict(_components(row.engine))
    context = {
        "failure": row,
        "engine": row.engine,
        "name": names.get(row.component, row.component),
        "to_tell": last_untold(row.engine),
    }
    return render(request, "quotes/bench/failure.html", context)


urlpatterns = [
    path("bench/due/", due, name="due-list"),
    path("bench/engines/<int:pk>/due/", engine_due, name="engine-due"),
    path("bench/engines/<int:pk>/failures/new/", new_failure, name="failure-new"),
    path("bench/failures/<int:pk>/", failure, name="failure"),
]
