"""Advice that was not taken: what stands of a job, and one more written down."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.bench.advice import keep_declined
from quotes.actions.refused import Refused
from quotes.forms.bench.advice import AdviceForm
from quotes.forms.books.fields import offer
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Job, Workshop
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.engines import known_catalogue
from quotes.views.every_request.person import signed_in


def advice(request: HttpRequest, pk: int) -> HttpResponse:
    """What was advised and not taken; a post writes one more down."""
    row = get_object_or_404(Job.objects.joined().select_related("quote__acceptance__revision"), pk=pk)
    first = {"said_by": row.customer.name, "key": fresh_key()}
    form = AdviceForm(request.POST if request.method == "POST" else None, initial=first)
    catalogue = known_catalogue(row.engine.type_code)
    parts = catalogue.components.values() if catalogue else ()
    offer(form, "component", [("", say("none by name")), *((one.code, one.name) for one in parts)])
    if form.is_bound and form.is_valid():
        try:
            kept = keep_declined(
                job=row, key=form.once(), by=signed_in(request), now=timezone.now(), **form.said()
            )
            messages.success(
                request, say("Written down: {words} was advised and not taken.", words=kept.words)
            )
            return redirect("job-advice", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        "job": row,
        "types": dict(engine_type_choices()),
        "form": form,
        "declined": declined_of(row),
        "refuses_unsafe": Workshop.objects.get_or_default().refuses_unsafe,
    }
    return render(request, "quotes/bench/advice.html", context)


urlpatterns = [path("bench/<int:pk>/advice/", advice, name="job-advice")]
