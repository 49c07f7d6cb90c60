"""Exports of the journal: what is new, a batch being made, its files as they were made once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.books.batch_runs import export_new as export_all_new
from quotes.actions.books.batch_runs import run_batch, work_of
from quotes.actions.refused import Refused
from quotes.filters.books.exports import BatchFilter
from quotes.forms.books.exports import ExportPeriod
from quotes.models import BatchState, ExportBatch, StoredFile
from quotes.queries.books.batches import batch_list, controls_of
from quotes.queries.books.export_look import export_look, last_batch
from quotes.queries.people import name_of
from quotes.tables.books.exports import BatchTable
from quotes.views.background import told
from quotes.views.books.listed import BooksList
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import download

STILL = timedelta(minutes=2)
"""A batch that is not ready by then may have lost its process; making it again does no harm."""
COUNTS = frozenset({"Lines of the journal", "Documents unaltered"})
"""Controls that count; the others are sums of money."""


class Exports(BooksList):
    """Every batch, the newest first."""

    title = _("Exports")
    one, many = _("export"), _("exports")
    table_class = BatchTable
    filterset_class = BatchFilter
    template_name = "quotes/books/exports.html"

    def rows(self) -> QuerySet[Any]:
        return batch_list()


@dataclass(frozen=True, slots=True)
class Quarter:
    """Three months that one press chooses."""

    first: date
    last: date

    @property
    def name(self) -> str:
        return say("Quarter {quarter} of {year}", quarter=(self.first.month + 2) // 3, year=self.first.year)


def quarters(on: date) -> list[Quarter]:
    """The quarter before that of the day, and its own."""
    begins = date(on.year, on.month - (on.month - 1) % 3, 1)
    before = begins - timedelta(days=1)
    first = date(before.year, before.month - (before.month - 1) % 3, 1)
    next_begins = date(begins.year + (begins.month == 10), (begins.month + 2) % 12 + 1, 1)
    return [Quarter(first, before), Quarter(begins, next_begins - timedelta(days=1))]


@require_http_methods(["GET", "POST"])
def export_new(request: HttpRequest) -> HttpResponse:
    """What an export would hold; the press that makes it."""
    form = ExportPeriod(request.POST if request.method == "POST" else request.GET)
    if request.method != "POST" or not form.is_valid():
        return _look(request, form)
    first, last = form.days()
    try:
        batch = export_all_new(by=signed_in(request), now=timezone.now(), first=first, last=last)
    except Refused as refused:
        return _look(request, form, str(refused))
    return redirect("export", batch.pk)


def _look(request: HttpRequest, form: ExportPeriod, fault: str = "") -> HttpResponse:
    days = form.days()
    context = {
        "form": form,
        "days": days,
        "look": export_look(*days),
        "last": last_batch(),
        "quarters": quarters(timezone.localdate()),
        "faults": [fault] if fault else [],
    }
    return render(request, "quotes/books/export_new.html", context)


def _batch(pk: int) -> ExportBatch:
    rows = ExportBatch.objects.select_related("made_by", "workbook", "csv")
    return get_object_or_404(rows.defer("workbook__held", "csv__held"), pk=pk)


def _state(batch: ExportBatch) -> dict[str, Any]:
    waiting = batch.state == BatchState.WAITING
    work = work_of(batch) if waiting else None
    in_hand = work is not None and work.is_open
    return {
        "batch": batch,
        "controls": [(control, control.what in COUNTS) for control in controls_of(batch)],
        "made_by": name_of(batch.made_by),
        "stuck": waiting and not in_hand and timezone.now() - batch.made_at > STILL,
        "told": told(work) if work and in_hand else None,
    }


@require_safe
def export(request: HttpRequest, pk: int) -> HttpResponse:
    """A batch: how far it has come, or its files with what was checked."""
    return render(request, "quotes/books/export.html", _state(_batch(pk)))


@require_safe
def export_state(request: HttpRequest, pk: int) -> HttpResponse:
    """The part of that page that changes while the batch is made."""
    return render(request, "quotes/books/export_state.html", _state(_batch(pk)))


@require_POST
def export_again(request: HttpRequest, pk: int) -> HttpResponse:
    """A batch that failed, or whose process was lost, is made again; a ready one stays as it is."""
    run_batch(_batch(pk))
    return redirect("export", pk)


@require_safe
def export_file(request: HttpRequest, pk: int, kind: str) -> HttpResponse:
    """The bytes as they were made."""
    rows = ExportBatch.objects.select_related("workbook", "csv")
    batch = get_object_or_404(rows, pk=pk)
    file: StoredFile | None = batch.workbook if kind == "workbook" else batch.csv
    if file is None:
        raise Http404(f"{batch.number} has no files yet")
    answer = download(file)
    answer["ETag"] = f'"{file.sha256}"'
    return answer


urlpatterns = [
    path("books/exports/", Exports.as_view(), name="export-list"),
    path("books/exports/new/", export_new, name="export-new"),
    path("books/exports/<int:pk>/", export, name="export"),
    path("books/exports/<int:pk>/state/", export_state, name="export-state"),
    path("books/exports/<int:pk>/again/", export_again, name="export-again"),
    path("books/exports/<int:pk>/workbook/", export_file, {"kind": "workbook"}, name="export-workbook"),
    path("books/exports/<int:pk>/csv/", export_file, {"kind": "csv"}, name="export-csv"),
]
