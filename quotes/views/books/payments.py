"""The list of payments, taking one, and its page with the receipt."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.books.receipts import payment_receipt_file
from quotes.actions.books.reversing import reverse_payment
from quotes.actions.refused import Refused
from quotes.filters.books.payments import PaymentFilter
from quotes.forms.books.payment import TakeBackForm
from quotes.forms.books.refusing import refuse
from quotes.models import OpenItem, Payment
from quotes.models.books.payment import PaymentQuerySet
from quotes.queries.books.deposits import held_of
from quotes.queries.books.payment_list import listed_payments, settled_by
from quotes.tables.books.payments import PaymentTable
from quotes.views.books.listed import BooksList
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


class PaymentList(BooksList):
    """Every payment, the newest first."""

    title = _("Payments")
    one = _("payment")
    table_class = PaymentTable
    filterset_class = PaymentFilter
    template_name = "quotes/books/payments.html"

    def rows(self) -> PaymentQuerySet:
        return listed_payments()


@require_safe
def payment(request: HttpRequest, pk: int) -> HttpResponse:
    """One payment: what it settled, its receipt, and what can be done where it did not hold."""
    return _page(request, _row(pk))


def _row(pk: int) -> Payment:
    return get_object_or_404(listed_payments().select_related("taken_by"), pk=pk)


def _page(request: HttpRequest, row: Payment, **more: Any) -> HttpResponse:
    item = OpenItem.objects.filter(payment=row).first()
    reversed_by = getattr(row, "reversed_by", None)
    may_reverse = row.kind != "reversal" and reversed_by is None
    context = {
        "payment": row,
        "item": item,
        "settled": settled_by(item) if item else [],
        "left": abs(item.open_amount) if item else 0,
        "reversed_by": reversed_by,
        "held": _held(row),
        "take_back_form": _take_back_form() if may_reverse else None,
        **more,
    }
    return render(request, "quotes/books/payment.html", context)


def _held(row: Payment) -> Decimal:
    """What is still held for the build, or the strip-down, of a deposit, of what this customer has paid."""
    return max(held_of(row, row.customer_id), Decimal(0)) if row.deposit else Decimal(0)


def _take_back_form(data: Any = None) -> TakeBackForm:
    options = money_options()
    return TakeBackForm(data, prefix="back", initial={"on": options["today"]}, **options)


@require_safe
def receipt(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The receipt on paper, drawn at the first asking and kept."""
    return served(request, payment_receipt_file(payment=get_object_or_404(Payment, pk=pk)))


@require_POST
def take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """A payment that did not hold, such as a cheque that bounced: what it settled is open again."""
    row = _row(pk)
    form = _take_back_form(request.POST)
    if not form.is_valid():
        return _page(request, row, take_back_form=form)
    try:
        made = reverse_payment(payment=row, by=signed_in(request), now=timezone.now(), **form.cleaned_data)
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return _page(request, row, take_back_form=form)
    messages.success(
        request, say("{number} is taken back: what it had settled is open again.", number=row.number)
    )
    return redirect("payment", made.pk)


urlpatterns = [
    path("payments/", PaymentList.as_view(), name="payment-list"),
    path("payments/<int:pk>/", payment, name="payment"),
    path("payments/<int:pk>/receipt.pdf", receipt, name="payment-receipt"),
    path("payments/<int:pk>/take-back/", take_back, name="payment-take-back"),
]
