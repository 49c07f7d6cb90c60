"""Taking in a file of suppliers' bills: handed in, looked at, then entered."""

from __future__ import annotations

import base64

from django.contrib import messages
from django.core import signing
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.calc.said import say
from catalogue.documents.table_files import TableFile, as_workbook
from catalogue.views.file_answer import file_answer
from quotes.actions.books.bill_file import enter_bills
from quotes.actions.refused import Refused
from quotes.forms.books.bill_file import BillFileForm
from quotes.imports.bill_columns import COLUMNS
from quotes.imports.check_bills import CheckedBills, check_bills
from quotes.imports.faults import FileFault
from quotes.imports.read_bills import SHEET
from quotes.views.every_request.person import signed_in
from quotes.views.table_page import FILES

SALT = "bill-file"
SHOWN = 200
"""So many faults and bills are shown; more can't be mended in one sitting."""


@require_http_methods(["GET", "POST"])
def bill_import(request: HttpRequest) -> HttpResponse:
    """Where a file is handed in; what it holds is shown before anything is entered."""
    if request.method != "POST":
        return _page(request, BillFileForm())
    form = BillFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, form)
    file: UploadedFile[bytes] = form.cleaned_data["file"]
    content = file.read()
    try:
        checked = check_bills(content, timezone.localdate())
    except FileFault as fault:
        form.add_error("file", str(fault))
        return _page(request, form)
    return _check_page(request, checked, file.name or "the file", content)


def _page(request: HttpRequest, form: BillFileForm) -> HttpResponse:
    return render(request, "quotes/books/bill_import.html", {"form": form, "columns": COLUMNS})


def _check_page(
    request: HttpRequest, checked: CheckedBills, name: str, content: bytes, refused: str = ""
) -> HttpResponse:
    """The file goes along, signed, so that what is entered is what was looked at."""
    told = {"name": name, "content": base64.b64encode(content).decode("ascii")}
    context = {
        "name": name,
        "checked": checked,
        "faults": checked.faults[:SHOWN],
        "bills": checked.file.bills[:SHOWN],
        "shown": SHOWN,
        "refused": refused,
        "carried": signing.dumps(told, salt=SALT, compress=True),
    }
    return render(request, "quotes/books/bill_import_check.html", context)


@require_POST
def bill_import_take(request: HttpRequest) -> HttpResponse:
    """Enters what was looked at, all of it or nothing."""
    try:
        told = signing.loads(request.POST.get("carried", ""), salt=SALT)
    except signing.BadSignature:
        messages.error(request, say("The file did not come along whole. Hand it in again."))
        return redirect("bill-import")
    content = base64.b64decode(told["content"])
    checked = check_bills(content, timezone.localdate())
    if not checked.sound:
        return _check_page(request, checked, told["name"], content)
    try:
        bills = enter_bills(
            bills=checked.file.bills, builds=checked.builds, by=signed_in(request), now=timezone.now()
        )
    except (Refused, ValidationError) as wrong:
        said = wrong.messages[0] if isinstance(wrong, ValidationError) else str(wrong)
        return _check_page(request, checked, told["name"], content, said)
    messages.success(
        request, say("{count} bills of {name} are entered.", count=len(bills), name=told["name"])
    )
    return redirect("bill-list")


@require_safe
def bill_import_template(request: HttpRequest) -> HttpResponse:
    """A workbook with the headings and an example."""
    example = TableFile(
        SHEET, [column.heading for column in COLUMNS], [[column.example for column in COLUMNS]]
    )
    return file_answer(as_workbook(example), "bills.xlsx", FILES["xlsx"][1])


urlpatterns = [
    path("books/bills/import/", bill_import, name="bill-import"),
    path("books/bills/import/take/", bill_import_take, name="bill-import-take"),
    path("books/bills/import/template.xlsx", bill_import_template, name="bill-import-template"),
]
