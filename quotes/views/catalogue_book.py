"""The whole catalogue as a workbook: written out, changed in a spreadsheet, looked at, taken in again."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.book import BookMoved
from catalogue.calc.said import say
from catalogue.documents.catalogue_book import catalogue_workbook
from catalogue.queries.book.layout import sheets
from catalogue.queries.book.written import book_now
from catalogue.views.file_answer import file_answer
from quotes.actions.catalogue_files import take_in_kept_book
from quotes.actions.handed_in import drop_file
from quotes.forms.upload import BookForm
from quotes.imports.catalogue_book.check import CheckedBook, check_book
from quotes.models import CatalogueFile
from quotes.views.every_request.person import signed_in
from quotes.views.handed_in import handed_in

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
SHOWN = 300
"""So many faults and changes are shown; more can't be looked through in one sitting."""


def catalogue_book(request: HttpRequest) -> HttpResponse:
    """Where the workbook is written out, and handed in."""
    if request.method != "POST":
        return _page(request, BookForm())
    form = BookForm(request.POST, request.FILES)
    kept = handed_in(request, form, CatalogueFile, check_book)
    return redirect("catalogue-book-check", kept) if kept else _page(request, form, status=422)


def _page(request: HttpRequest, form: BookForm, *, status: int = 200) -> HttpResponse:
    taken = CatalogueFile.objects.exclude(applied_at=None).select_related("checked_by").defer("held")[:10]
    context = {"form": form, "taken": taken, "sheets": sheets()}
    return render(request, "quotes/catalogue_book.html", context, status=status)


@require_safe
def catalogue_book_file(request: HttpRequest) -> HttpResponse:
    """The workbook itself."""
    name = f"catalogue-{timezone.localdate().isoformat()}.xlsx"
    return file_answer(catalogue_workbook(book_now()), name, XLSX)


def catalogue_book_check(request: HttpRequest, pk: int) -> HttpResponse:
    """What a workbook would change, with all its faults; the press that takes it in."""
    kept = get_object_or_404(CatalogueFile, pk=pk, checked_by=signed_in(request))
    if kept.applied_at is not None:
        return render(request, "quotes/catalogue_book_check.html", {"kept": kept})
    checked = check_book(bytes(kept.content))
    if request.method != "POST":
        return _check_page(request, kept, checked)
    if not checked.sound or checked.plan is None or checked.given is None:
        return _check_page(request, kept, checked, status=422)
    if request.POST.get("plan") != checked.plan.digest:
        return _check_page(request, kept, checked, status=409, moved=True)
    try:
        take_in_kept_book(
            kept=kept, given=checked.given, looked_at=checked.plan, by=signed_in(request), now=timezone.now()
        )
    except BookMoved:
        again = check_book(bytes(kept.content))
        return _check_page(request, kept, again, status=409, moved=True)
    messages.success(request, say("{file} is taken in.", file=kept.name))
    return redirect("catalogue-book-check", kept.pk)


def _check_page(
    request: HttpRequest, kept: CatalogueFile, checked: CheckedBook, *, status: int = 200, **more: Any
) -> HttpResponse:
    changes = checked.changes
    context = {
        "kept": kept,
        "checked": checked,
        "faults": checked.faults[:SHOWN],
        "changes": changes[:SHOWN],
        "all_changes": len(changes),
        "shown": SHOWN,
        **more,
    }
    return render(request, "quotes/catalogue_book_check.html", context, status=status)


@require_POST
def catalogue_book_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Throw a workbook away that was not taken in."""
    drop_file(CatalogueFile, pk=pk, by=signed_in(request))
    return redirect("catalogue-book")


urlpatterns = [
    path("catalogue/workbook/", catalogue_book, name="catalogue-book"),
    path("catalogue/workbook/catalogue.xlsx", catalogue_book_file, name="catalogue-book-file"),
    path("catalogue/workbook/<int:pk>/", catalogue_book_check, name="catalogue-book-check"),
    path("catalogue/workbook/<int:pk>/drop/", catalogue_book_drop, name="catalogue-book-drop"),
]
