"""Paying money back: what a credit note or an overpayment leaves, or a deposit that is held."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.books.paying_back import refund
from quotes.actions.refused import Refused
from quotes.forms.books.payment import RefundForm, fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Customer, OpenItem, Payment
from quotes.queries.books.deposits import build_of_payment, held_of
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in


def pay_back_item(request: HttpRequest, pk: int) -> HttpResponse:
    """Pay back what is open on one line of a customer's account."""
    item = get_object_or_404(OpenItem.objects.select_related("customer"), pk=pk)
    most = -min(item.open_amount, Decimal(0))
    return _pay_back(request, item.customer, most, item.number, from_item=item, deposit_of=None)


def pay_back_deposit(request: HttpRequest, pk: int) -> HttpResponse:
    """Pay back a deposit that was taken by receipt and is still held, to who paid it."""
    rows = Payment.objects.filter(deposit=True, kind="received").joined()
    paid = get_object_or_404(rows, pk=pk)
    most = max(held_of(paid, paid.customer_id), Decimal(0))
    build = build_of_payment(paid)
    words = say("the deposit held for {number}", number=build.quote.number if build else paid.job)
    return _pay_back(request, paid.customer, most, words, from_item=None, deposit_of=build or paid.job)


def _pay_back(
    request: HttpRequest, customer: Customer, most: Decimal, what: str, **source: Any
) -> HttpResponse:
    options = money_options()
    first = {"key": fresh_key(), "amount": most, "on": options["today"]}
    form = RefundForm(request.POST or None, most=most, initial=first, **options)
    told = {"form": form, "customer": customer, "most": most, "what": what}
    if request.method != "POST" or not form.is_valid():
        return render(request, "quotes/books/refund.html", told)
    try:
        made = refund(
            customer=customer, by=signed_in(request), now=timezone.now(), **form.cleaned_data, **source
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return render(request, "quotes/books/refund.html", told)
    return redirect("payment", made.pk)


urlpatterns = [
    path("payments/back/<int:pk>/", pay_back_item, name="payment-back"),
    path("payments/back/deposit/<int:pk>/", pay_back_deposit, name="deposit-back"),
]
