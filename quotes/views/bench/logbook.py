"""An engine's logbook, on the page and on paper; and what the workshop's record offers the owner."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.utils import timezone, translation
from django.views.decorators.http import require_safe

from catalogue.views.file_answer import shown_pdf
from quotes.documents.bench.logbook import logbook_pdf
from quotes.models import Engine
from quotes.queries.bench.ages.after import with_after
from quotes.queries.bench.ages.logbook import logbook
from quotes.queries.bench.learned import hours_learned, leads_learned


def _engine(pk: int) -> Engine:
    return get_object_or_404(with_after(Engine.objects.filter(pk=pk)))


@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The logbook on one page."""
    engine = _engine(pk)
    context = {"engine": engine, "sheet": logbook(engine, timezone.localdate())}
    return render(request, "quotes/bench/logbook.html", context)


@require_safe
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The logbook on paper."""
    engine = _engine(pk)
    with translation.override(engine.customer.reads):
        sheet = logbook(engine, timezone.localdate())
    return shown_pdf(logbook_pdf(sheet), "logbook.pdf")


@require_safe
def learned(request: HttpRequest) -> HttpResponse:
    """Hours and lead times as they really were, beside what the catalogue says."""
    context = {"hours": hours_learned(), "leads": leads_learned(timezone.localdate())}
    return render(request, "quotes/bench/learned.html", context)


urlpatterns = [
    path("bench/engines/<int:pk>/logbook/", show, name="logbook"),
    path("bench/engines/<int:pk>/logbook.pdf", paper, name="logbook-pdf"),
    path("bench/learned/", learned, name="learned"),
]
