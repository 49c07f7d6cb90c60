"""The invoices of an accepted build on the customer's page, each on paper under the customer's own link."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path, reverse
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from quotes.documents import words
from quotes.models import Invoice
from quotes.models.books.invoice import InvoiceQuerySet
from quotes.queries.workshop import currency_decimals
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.every_request.stored_answer import download


@dataclass(frozen=True, slots=True)
class InvoiceShown:
    """One document as the customer reads it."""

    number: str
    kind: str
    on: str
    gross: str
    open: str
    """Still to pay, or what we owe back, in words."""
    pdf: str


def own_invoices(opened: OpenedLink) -> InvoiceQuerySet:
    """Documents of this build that this customer was sent; another payer's are not shown."""
    if opened.acceptance is None:
        return Invoice.objects.none()
    return Invoice.objects.of_build(opened.acceptance.pk).filter(customer=opened.quote.customer_id)


def invoices_shown(opened: OpenedLink) -> list[InvoiceShown]:
    """What the page says of each, the oldest first."""
    rows = own_invoices(opened).select_related("item").defer("sheet").order_by("issued_at", "pk")
    return [_shown(opened, row) for row in rows]


def _shown(opened: OpenedLink, row: Invoice) -> InvoiceShown:
    decimals, open_amount = currency_decimals(row.currency), row.item.open_amount
    left = words.money(abs(open_amount), row.currency, decimals)
    gross = words.money(row.gross, row.currency, decimals)
    return InvoiceShown(
        number=row.number,
        kind=str(row.get_kind_display()),
        on=words.day(row.issued_on),
        gross=say("{sum} given back", sum=gross) if row.kind == "credit_note" else gross,
        open=_open(open_amount, left),
        pdf=reverse("customer-invoice", args=[opened.token, row.pk]),
    )


def _open(amount: Decimal, said: str) -> str:
    if amount < 0:
        return say("{sum} yours, to be paid back", sum=said)
    return said if amount else say("nothing")


@by_link
@require_safe
def invoice_pdf(request: HttpRequest, opened: OpenedLink, pk: int) -> HttpResponse:
    """The paper as it was stored, if this link's customer was sent it; else the page that says nothing."""
    row = own_invoices(opened).select_related("pdf").filter(pk=pk).first()
    if row is None:
        return render(request, "quotes/customer_gone.html", status=404)
    return download(row.pdf)


urlpatterns = [path("q/<str:token>/invoices/<int:pk>.pdf", invoice_pdf, name="customer-invoice")]
