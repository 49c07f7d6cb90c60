"""Bank files: the list, handing one in, saying which column is what, and taking its lines in."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.calc.said import say
from catalogue.calc.typed_figure import typed_number
from quotes.actions.books.bank_files import choose_reading, drop_bank_file, enter_bank_lines, keep_bank_file
from quotes.actions.refused import Refused
from quotes.calc.books.bank_lines import Reading
from quotes.filters.books.bank import BankFileFilter
from quotes.forms.books.bank import BankFileForm, ReadingForm, ticked
from quotes.imports.bank.check import CheckedStatement, check_statement
from quotes.imports.faults import FileFault
from quotes.models import BankFile
from quotes.queries.books.bank import reading_of
from quotes.queries.books.bank_files import listed_bank_files
from quotes.tables.books.bank import BankFileTable
from quotes.views.books.bank_take import lines_page
from quotes.views.books.listed import BooksList
from quotes.views.every_request.person import signed_in

SHOWN = 300
"""So many lines are shown before they are taken in."""
ANY_CHARSET = "iso-8859-1"
"""Every byte is a letter of it: what can't be read even so is no table."""


class BankFiles(BooksList):
    """Every file, the newest first."""

    title = _("Bank files")
    one, many = _("file"), _("files")
    table_class = BankFileTable
    filterset_class = BankFileFilter
    template_name = "quotes/books/bank_files.html"

    def rows(self) -> QuerySet[Any]:
        return listed_bank_files()


@require_http_methods(["GET", "POST"])
def bank_new(request: HttpRequest) -> HttpResponse:
    """Where a file is handed in."""
    form = BankFileForm(request.POST, request.FILES) if request.method == "POST" else BankFileForm()
    if request.method != "POST" or not form.is_valid():
        return render(request, "quotes/books/bank_new.html", {"form": form})
    file: UploadedFile[bytes] = form.cleaned_data["file"]
    content = file.read()
    try:
        _readable(content)
    except FileFault as fault:
        form.add_error("file", str(fault))
        return render(request, "quotes/books/bank_new.html", {"form": form})
    kept = keep_bank_file(name=file.name or "", content=content, by=signed_in(request), now=timezone.now())
    return redirect("bank-file", kept.pk)


def _readable(content: bytes) -> None:
    """FileFault for what can't be read however it is chosen; a wrong character set can be mended later."""
    on = timezone.localdate()
    try:
        check_statement(content, on=on)
    except FileFault as fault:
        try:
            check_statement(content, Reading(charset=ANY_CHARSET), on=on)
        except FileFault:
            raise fault from None


def _file(pk: int) -> BankFile:
    return get_object_or_404(BankFile.objects.select_related("content", "kept_by"), pk=pk)


@require_safe
def bank_file(request: HttpRequest, pk: int) -> HttpResponse:
    """A file that was not taken in yet shows how it is read; one that was, what its lines are."""
    file = _file(pk)
    return lines_page(request, file) if file.lines.exists() else _reading_page(request, file)


def _checked(file: BankFile) -> CheckedStatement:
    return check_statement(bytes(file.content.content), reading_of(file), on=timezone.localdate())


def _reading_page(
    request: HttpRequest, file: BankFile, form: ReadingForm | None = None, fault: str = ""
) -> HttpResponse:
    checked: CheckedStatement | None = None
    try:
        checked = _checked(file)
    except FileFault as wrong:
        fault = fault or str(wrong)
    kept = reading_of(file) or Reading()
    statement = checked.statement if checked else None
    heads = statement.heads if statement else ()
    context = {
        "file": file,
        "form": form or ReadingForm(heads, reading=statement.reading if statement else kept),
        "checked": checked,
        "statement": statement,
        "faults": statement.faults[:SHOWN] if statement else (),
        "lines": checked.lines[:SHOWN] if checked else (),
        "shown": SHOWN,
        "fault": fault,
    }
    return render(request, "quotes/books/bank_reading.html", context)


@require_POST
def bank_read(request: HttpRequest, pk: int) -> HttpResponse:
    """The columns were chosen: the file is shown as read so."""
    file = _file(pk)
    try:
        heads = _heads(file, request)
    except FileFault as fault:
        return _reading_page(request, file, fault=str(fault))
    form = ReadingForm(heads, request.POST)
    if not form.is_valid():
        return _reading_page(request, file, form)
    try:
        choose_reading(file=file, reading=form.value())
    except Refused as refused:
        return _reading_page(request, file, form, str(refused))
    return redirect("bank-file", file.pk)


def _heads(file: BankFile, request: HttpRequest) -> tuple[str, ...]:
    """The heads of the file, by the character set, the separator and the line that were chosen."""
    asked = Reading(
        charset=request.POST.get("charset", ""),
        separator=request.POST.get("separator", ""),
        head_line=typed_number(request.POST.get("head_line", ""), digits=5),
    )
    content = bytes(file.content.content)
    return check_statement(content, asked, on=timezone.localdate()).statement.heads


@require_POST
def bank_enter(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes in the lines that are new; then each waits to be taken as a payment or put aside."""
    file = _file(pk)
    try:
        checked = _checked(file)
        if not checked.statement.sound:
            return _reading_page(request, file)
        lines = enter_bank_lines(
            file=file,
            reading=checked.statement.reading,
            heads=checked.statement.heads,
            lines=checked.statement.lines,
            confirmed=ticked(request.POST, "confirmed"),
            now=timezone.now(),
        )
    except (FileFault, Refused) as wrong:
        return _reading_page(request, file, fault=str(wrong))
    except ValidationError as wrong:
        return _reading_page(request, file, fault=wrong.messages[0])
    messages.success(
        request,
        say(
            "{count} lines of {file} are taken in. Nothing is a payment yet.",
            count=len(lines),
            file=file.name,
        ),
    )
    return redirect("bank-file", file.pk)


@require_POST
def bank_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Throws a file away of which nothing was taken in."""
    file = _file(pk)
    try:
        drop_bank_file(file=file)
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("bank-file", pk)
    messages.success(request, say("{name} is thrown away.", name=file.name))
    return redirect("bank-list")


urlpatterns = [
    path("books/bank/", BankFiles.as_view(), name="bank-list"),
    path("books/bank/new/", bank_new, name="bank-new"),
    path("books/bank/<int:pk>/", bank_file, name="bank-file"),
    path("books/bank/<int:pk>/read/", bank_read, name="bank-read"),
    path("books/bank/<int:pk>/enter/", bank_enter, name="bank-enter"),
    path("books/bank/<int:pk>/drop/", bank_drop, name="bank-drop"),
]
