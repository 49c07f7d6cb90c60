"""Strip-downs of earlier years: entered one by one or from a file, and withdrawn where they were wrong."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.calc.said import say, say_count
from quotes.actions.learning.by_hand import enter_all, enter_evidence, withdraw_evidence
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.forms.learning import EarlierForm, EvidenceFileForm, WithdrawForm
from quotes.imports.evidence_columns import COLUMNS
from quotes.imports.faults import FileFault, RowFault
from quotes.imports.read_evidence import read_evidence
from quotes.models import Evidence
from quotes.queries.learning.choices import evidence_names
from quotes.queries.learning.rows import Catalogues
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in
from quotes.views.learning.deciding import address

SHOWN = 100
"""So many faults of a file are shown; more can't be mended in one sitting."""
AS_JSON = (
    '{"component": "clutch_friction", "type_code": "four600", "engine": "bench book 7", "on": "2025-11-25", '
    '"unit": "mi", "duty": "endurance", "failures": [3100], "suspensions": [4000, 4200], '
    '"intervals": [[2000, 3900]]}'
)
KEPT_FIELDS = ("component", "type_code", "duty", "tier", "unit", "source")
"""What stands in the form again for the next row of the same notebook."""


@require_http_methods(["GET", "POST"])
def earlier(request: HttpRequest) -> HttpResponse:
    """One row; what was typed stays where it is refused."""
    known, today = Catalogues(), timezone.localdate()
    posted = request.POST if request.method == "POST" else None
    first = {name: request.GET[name] for name in KEPT_FIELDS if name in request.GET}
    names = evidence_names(known)
    form = EarlierForm(posted, prefix="seen", names=names, today=today, initial={"tier": "refresh", **first})
    if posted is not None and form.is_valid():
        try:
            row = enter_evidence(
                told=form.told(), key=card_key(request), by=signed_in(request), now=timezone.now()
            )
        except ValidationError as wrong:
            refuse(form, wrong)
        else:
            kept = names["component"][row.component]
            messages.success(request, say("Kept: {part}, {engine}.", part=kept, engine=row.engine_name))
            return redirect(f"{request.path}?{_again(row)}")
    context = {"form": form, "key": request.POST.get("key") or fresh_key()}
    return render(request, "quotes/learning/earlier.html", context, status=422 if form.errors else 200)


def _again(row: Evidence) -> str:
    from urllib.parse import urlencode

    return urlencode({name: getattr(row, name) for name in KEPT_FIELDS if getattr(row, name)})


@require_http_methods(["GET", "POST"])
def from_file(request: HttpRequest) -> HttpResponse:
    """A file is checked line by line, then entered as a whole or not at all."""
    form = EvidenceFileForm(request.POST, request.FILES) if request.method == "POST" else EvidenceFileForm()
    if not form.is_bound or not form.is_valid():
        return _file_page(request, form)
    file: UploadedFile[bytes] = form.cleaned_data["file"]
    known, now = Catalogues(), timezone.now()
    try:
        read = read_evidence(file.read(), evidence_names(known), timezone.localdate(now), known)
    except FileFault as fault:
        form.add_error("file", str(fault))
        return _file_page(request, form)
    if read.faults:
        return _file_page(request, form, read.faults)
    try:
        count = enter_all(told=read.rows, by=signed_in(request), now=now)
    except ValidationError as wrong:
        form.add_error("file", " ".join(wrong.messages))
        return _file_page(request, form)
    said = say_count(
        "{count} row of {file} is entered.", "{count} rows of {file} are entered.", count, file=file.name
    )
    messages.success(request, said)
    return redirect("lives")


def _file_page(
    request: HttpRequest, form: EvidenceFileForm, faults: tuple[RowFault, ...] = ()
) -> HttpResponse:
    context: dict[str, Any] = {
        "form": form,
        "columns": COLUMNS,
        "example": AS_JSON,
        "faults": faults[:SHOWN],
        "count": len(faults),
    }
    status = 422 if faults or form.errors else 200
    return render(request, "quotes/learning/file.html", context, status=status)


@require_POST
def withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    """A row counts no more; without a reason nothing happens and the page says so."""
    row = get_object_or_404(Evidence, pk=pk)
    form = WithdrawForm(request.POST, prefix=f"row-{pk}")
    if form.is_valid():
        withdraw_evidence(
            evidence=row, because=form.cleaned_data["because"], by=signed_in(request), now=timezone.now()
        )
        messages.success(request, say("Withdrawn: it stays on record and counts no more."))
    else:
        messages.error(request, say("Not withdrawn. {why}", why=form.errors["because"][0]))
    basis = request.POST.get("basis", "")
    return redirect(address(row.component, basis) if basis in ("miles", "hours_mx") else "lives")
