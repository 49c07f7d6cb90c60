"""Taking in existing customers and engines from a file: handed in, looked at, then taken in."""

from __future__ import annotations

import hashlib
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.views.file_answer import file_answer
from quotes.actions.handed_in import drop_file
from quotes.actions.import_customers import FileMismatch, take_in_file
from quotes.forms.upload import UploadForm
from quotes.imports.customer_columns import COLUMNS
from quotes.imports.load_customers import CheckedCustomers, check_customers, choices
from quotes.imports.template import template_workbook
from quotes.models import CustomerFile
from quotes.views.every_request.person import signed_in
from quotes.views.handed_in import handed_in

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
SHOWN = 200
"""So many faults and customers are shown; more can't be mended in one sitting."""


def import_customers(request: HttpRequest) -> HttpResponse:
    """Where a file is handed in."""
    if request.method != "POST":
        return _page(request, UploadForm())
    form = UploadForm(request.POST, request.FILES)
    today = timezone.localdate()
    kept = handed_in(request, form, CustomerFile, lambda content: check_customers(content, today))
    return redirect("import-check", kept) if kept else _page(request, form, status=422)


def _page(request: HttpRequest, form: UploadForm, *, status: int = 200) -> HttpResponse:
    offered = choices()
    columns = [(one, offered.allowed(one.key) if one.kind == "choice" else one.allowed) for one in COLUMNS]
    taken = CustomerFile.objects.exclude(applied_at=None).select_related("checked_by").defer("held")[:10]
    context = {"form": form, "columns": columns, "taken": taken}
    return render(request, "quotes/import.html", context, status=status)


def import_check(request: HttpRequest, pk: int) -> HttpResponse:
    """What a file would add, with all its faults; the press that takes it in."""
    kept = get_object_or_404(CustomerFile, pk=pk, checked_by=signed_in(request))
    if kept.applied_at is not None:
        return render(request, "quotes/import_check.html", {"kept": kept})
    checked = check_customers(bytes(kept.content), timezone.localdate())
    if request.method != "POST":
        return _check_page(request, kept, checked)
    if not checked.sound:
        return _check_page(request, kept, checked, status=422)
    if request.POST.get("plan") != plan_digest(checked):
        return _check_page(request, kept, checked, status=409, moved=True)
    try:
        take_in_file(kept=kept, given=checked.file.customers, expected=checked.plan, now=timezone.now())
    except FileMismatch:
        again = check_customers(bytes(kept.content), timezone.localdate())
        return _check_page(request, kept, again, status=409, moved=True)
    messages.success(request, say("{file} is taken in.", file=kept.name))
    return redirect("import-check", kept.pk)


def plan_digest(checked: CheckedCustomers) -> str:
    """The fingerprint of what a file would do, so that what is done is what was looked at."""
    return hashlib.sha256(repr(checked.plan).encode()).hexdigest()


def _check_page(
    request: HttpRequest, kept: CustomerFile, checked: CheckedCustomers, *, status: int = 200, **more: Any
) -> HttpResponse:
    context = {
        "kept": kept,
        "checked": checked,
        "faults": checked.faults[:SHOWN],
        "customers": checked.plan.customers[:SHOWN],
        "shown": SHOWN,
        "plan": plan_digest(checked),
        **more,
    }
    return render(request, "quotes/import_check.html", context, status=status)


@require_safe
def import_template(request: HttpRequest) -> HttpResponse:
    """An empty workbook with the headings, an example and what is allowed."""
    return file_answer(template_workbook(choices()), "customers.xlsx", XLSX)


@require_POST
def import_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Throw a file away that was not taken in."""
    drop_file(CustomerFile, pk=pk, by=signed_in(request))
    return redirect("import-customers")


urlpatterns = [
    path("enquiries/import/", import_customers, name="import-customers"),
    path("enquiries/import/template.xlsx", import_template, name="import-template"),
    path("enquiries/import/<int:pk>/", import_check, name="import-check"),
    path("enquiries/import/<int:pk>/drop/", import_drop, name="import-drop"),
]
