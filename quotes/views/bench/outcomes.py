"""What became of a build's service: told on the job's page, at the build or on the engine's, once a build."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.actions.bench.outcomes import ServiceTold, take_back_outcome, tell_outcome
from quotes.actions.refused import Refused
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.words import likely_in_words
from quotes.forms.bench.outcomes import BecauseForm, OutcomeForm, outcome_form
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import as_of
from quotes.models import Acceptance, Job, ServiceOutcome
from quotes.queries.bench.ages.outcomes import PromisedService, outcome_of, promised_service, ran_since
from quotes.queries.engines import known_catalogue
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


def outcome(request: HttpRequest, build: int) -> HttpResponse:
    """The promise of a build and how its service went; a post writes that down."""
    row = _build(build)
    service, job = promised_service(row), _job(request, row)
    standing = outcome_of(row)
    data = request.POST if request.method == "POST" else None
    form = _form(data, row, service, job)
    if data is not None and form.is_valid():
        told = ServiceTold(**{name: value for name, value in form.cleaned_data.items() if value is not None})
        try:
            now = timezone.now()
            tell_outcome(build=row, told=told, key=card_key(request), by=signed_in(request), now=now, job=job)
            messages.success(request, say("Kept: it counts in the workshop's record of what stopped."))
            return redirect("job", job.pk) if job else redirect("engine", row.quote.engine_id)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context: dict[str, Any] = {
        "build": row,
        "service": service,
        "likely": likely_in_words(service.option.chance.low, service.option.chance.high),
        "job": job,
        "form": form,
        "key": request.POST.get("key") or fresh_key(),
        "standing": standing,
        "because": BecauseForm(prefix="back"),
        "names": dict(_causes(row)),
    }
    return render(request, "quotes/bench/outcome.html", context)


def _build(pk: int) -> Acceptance:
    rows = Acceptance.objects.select_related("quote__engine__customer", "revision")
    return get_object_or_404(rows, pk=pk, done_at__isnull=False, called_off=None)


def _job(request: HttpRequest, build: Acceptance) -> Job | None:
    """The visit at which it is told, where the page was opened from one of this engine."""
    asked = request.POST.get("job") or request.GET.get("job") or ""
    if not asked.isascii() or not asked.isdigit() or len(asked) > 9:
        return None
    return Job.objects.filter(pk=int(asked), engine=build.quote.engine_id).first()


def _form(data: Any, build: Acceptance, service: PromisedService, job: Job | None) -> OutcomeForm:
    today = timezone.localdate()
    initial: dict[str, Any] = {"on": today}
    ran: Decimal | None = None
    if job is not None:
        ran = ran_since(build, job, service.unit)
        initial = {"on": timezone.localdate(job.received_at), "told_by": job.brought_by, "ran": ran}
    words = {str(code): word for code, word in WORDS.items()}
    form = outcome_form(data, _causes(build), words[service.unit], initial=initial)
    as_of(form, today)
    return form


def _causes(build: Acceptance) -> list[tuple[str, str]]:
    catalogue = known_catalogue(build.quote.engine.type_code)
    return [(one.code, one.name) for one in catalogue.components.values()] if catalogue else []


@require_POST
def take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """Take an outcome back; without a reason it stands."""
    row = get_object_or_404(ServiceOutcome.objects.select_related("build"), pk=pk)
    form = BecauseForm(request.POST, prefix="back")
    if form.is_valid():
        by, now = signed_in(request), timezone.now()
        take_back_outcome(outcome=row, because=form.cleaned_data["because"], by=by, now=now)
        messages.success(request, say("Taken back: it counts no more, and can be told anew."))
    else:
        messages.error(
            request, say("It stands: {fault} Say why it is taken back.", fault=form.errors["because"][0])
        )
    return redirect("outcome", row.build_id)


urlpatterns = [
    path("bench/builds/<int:build>/outcome/", outcome, name="outcome"),
    path("bench/outcomes/<int:pk>/take-back/", take_back, name="outcome-back"),
]
