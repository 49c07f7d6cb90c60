"""The list of invoices, and one issued document with what has settled it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.books.write_off import write_off
from quotes.actions.refused import Refused
from quotes.filters.books.invoices import InvoiceFilter
from quotes.forms.books.payment import WriteOffForm
from quotes.forms.books.refusing import refuse
from quotes.models import Invoice, InvoiceDraft
from quotes.models.books.invoice import InvoiceDraftQuerySet
from quotes.queries.books.credits import sheet_of_invoice
from quotes.queries.books.invoice_list import OURS, listed_documents, word_of
from quotes.queries.books.payment_list import settled_by
from quotes.queries.books.reminders import reminders_of
from quotes.queries.books.tax_written_off import tax_written_off_of
from quotes.queries.rights import may_open
from quotes.tables.books.invoices import InvoiceTable
from quotes.views.books.listed import BooksList
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


class InvoiceList(BooksList):
    """Every document and open draft, the newest first."""

    title = _("Invoices")
    one = _("invoice")
    table_class = InvoiceTable
    filterset_class = InvoiceFilter
    template_name = "quotes/books/invoices.html"

    def rows(self) -> InvoiceDraftQuerySet:
        return listed_documents(timezone.localdate())

    def bare_rows(self) -> InvoiceDraftQuerySet:
        """Where a document stands is worked out of much: only who narrows by it has to have it counted."""
        return self.rows() if self.request.GET.get("state") else InvoiceDraft.objects.filter(dropped_at=None)


@require_safe
def invoice(request: HttpRequest, pk: int) -> HttpResponse:
    """One document as it was issued, and where it stands."""
    return _page(request, _row(pk))


def _row(pk: int) -> Invoice:
    rows = Invoice.objects.joined().select_related("issued_by", "pdf", "xml")
    return get_object_or_404(rows.defer("pdf__held", "xml__held", "build__quote__request"), pk=pk)


def _page(request: HttpRequest, row: Invoice, **more: Any) -> HttpResponse:
    sheet = sheet_of_invoice(row)
    word = word_of(row, timezone.localdate())
    context = {
        "invoice": row,
        "sheet": sheet,
        "word": word,
        "must": word in OURS,
        "settled": settled_by(row.item),
        "given_up": tax_written_off_of(row),
        "credits": list(row.credit_notes.defer("sheet").order_by("pk")),
        "late": word == "overdue",
        "reminders": reminders_of(row),
        "to_pay": max(row.item.open_amount, Decimal(0)),
        "to_pay_back": -min(row.item.open_amount, Decimal(0)),
        "may_credit": row.kind != "credit_note",
        "write_off_form": _write_off_form(row) if may_open(request.user, "invoice-write-off") else None,
        **more,
    }
    return render(request, "quotes/books/invoice.html", context)


def _write_off_form(row: Invoice, data: Any = None) -> WriteOffForm | None:
    """For the owner, while something is to be paid."""
    open_amount, options = row.item.open_amount, money_options()
    if open_amount <= 0:
        return None
    initial = {"amount": open_amount, "on": options["today"]}
    return WriteOffForm(data, prefix="off", most=open_amount, initial=initial, **options)


@require_POST
def give_up(request: HttpRequest, pk: int) -> HttpResponse:
    """Write off what is open, or a part of it."""
    row = _row(pk)
    form = _write_off_form(row, request.POST)
    if form is None:
        return _page(
            request,
            row,
            refused=say("Nothing is open on {number}: there is nothing to write off.", number=row.number),
        )
    if not form.is_valid():
        return _page(request, row, write_off_form=form)
    try:
        made = write_off(item=row.item, by=signed_in(request), now=timezone.now(), **form.cleaned_data)
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return _page(request, row, write_off_form=form)
    messages.success(
        request, say("{number}: written off on {document}.", number=made.number, document=row.number)
    )
    return redirect("invoice", pk)


@require_safe
def pdf(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The paper as it was stored when the document was issued."""
    return served(request, get_object_or_404(Invoice.objects.select_related("pdf"), pk=pk).pdf)


@require_safe
def xml(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The e-invoice as it was stored; a sales-tax workshop has none."""
    row = get_object_or_404(Invoice.objects.select_related("xml"), pk=pk)
    if row.xml is None:
        raise Http404(f"{row.number} has no e-invoice.")
    return served(request, row.xml)


urlpatterns = [
    path("invoices/", InvoiceList.as_view(), name="invoice-list"),
    path("invoices/<int:pk>/", invoice, name="invoice"),
    path("invoices/<int:pk>/write-off/", give_up, name="invoice-write-off"),
    path("invoices/<int:pk>/invoice.pdf", pdf, name="invoice-pdf"),
    path("invoices/<int:pk>/invoice.xml", xml, name="invoice-xml"),
]
