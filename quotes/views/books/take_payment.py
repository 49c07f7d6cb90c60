"""Taking a payment at the desk: who, how much, how, and what it settles."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.typed_figure import typed_number
from quotes.actions.books.payments import take_payment
from quotes.actions.refused import Refused
from quotes.forms.books.payment import CHOSEN, OLDEST, DepositPaymentForm, PaymentForm, fresh_key
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import shown
from quotes.models import Acceptance, Booking, Customer, Job, OpenItem, Payment
from quotes.queries.books.payers import payer_words, payers_found
from quotes.views.books.parts import money_options, payers
from quotes.views.every_request.person import signed_in


@dataclass(frozen=True, slots=True)
class PaymentFor:
    """What the payment is for, as the address says."""

    customer: Customer | None = None
    item: OpenItem | None = None
    build: Acceptance | None = None
    job: Job | None = None
    booking: Booking | None = None


def new_payment(request: HttpRequest) -> HttpResponse:
    """The form, with what is open for the customer once they are known; a post takes the payment."""
    asked = _asked(request.GET)
    if asked.build or asked.job:
        return _deposit(request, asked)
    if request.method != "POST":
        items = _open(asked.customer)
        return _page(request, PaymentForm(initial=_first(asked, items), items=items, **money_options()))
    items = _open(_typed_customer(request.POST))
    form = PaymentForm(request.POST, items=items, **money_options())
    if request.POST.get("do") == "open":
        return _page(request, _unjudged(form, items))
    if not form.is_valid():
        return _page(request, form)
    return _taken(request, form, allocate=form.allocation())


def _asked(address: Mapping[str, str]) -> PaymentFor:
    """The customer, document, build, job or booking that the address names; a stranger is a 404."""

    def key(name: str) -> int | None:
        return typed_number(address.get(name, ""))

    if (invoice := key("invoice")) is not None:
        item = get_object_or_404(OpenItem.objects.select_related("customer"), invoice_id=invoice)
        return PaymentFor(item.customer, item)
    if (build := key("build")) is not None:
        return PaymentFor(
            build=get_object_or_404(Acceptance.objects.select_related("quote__customer"), pk=build)
        )
    if (job := key("job")) is not None:
        return PaymentFor(job=get_object_or_404(Job.objects.select_related("customer", "leave"), pk=job))
    if (booked := key("booking")) is not None:
        slot = get_object_or_404(Booking.objects.standing().joined(), pk=booked)
        return PaymentFor(slot.enquiry.customer, booking=slot)
    if (customer := key("customer")) is not None:
        return PaymentFor(get_object_or_404(Customer, pk=customer))
    return PaymentFor()


def _open(customer: Customer | None) -> list[OpenItem]:
    """What the customer has to pay, the oldest first."""
    rows = OpenItem.objects.owed_to_us().filter(customer=customer) if customer else OpenItem.objects.none()
    return list(rows.order_by("on", "pk"))


def _typed_customer(posted: Mapping[str, str]) -> Customer | None:
    typed = posted.get("customer", "")
    found = payers_found(typed) if "\x00" not in typed else []
    return found[0] if len(found) == 1 else None


def _first(asked: PaymentFor, items: Sequence[OpenItem]) -> dict[str, Any]:
    """What stands in the form before anybody has typed: one document, or all that is open."""
    first: dict[str, Any] = {"key": fresh_key(), "on": timezone.localdate(), "use": OLDEST}
    if asked.customer:
        first["customer"] = payer_words(asked.customer)
    if asked.booking:
        return first | {"amount": asked.booking.deposit, "reference": asked.booking.number}
    if asked.item and asked.item.open_amount > 0:
        first |= {"amount": asked.item.open_amount}
        if len(items) > 1:
            first |= {"use": CHOSEN, f"item_{asked.item.pk}": asked.item.open_amount}
    elif items:
        first["amount"] = sum((item.open_amount for item in items), Decimal(0))
    return first


def _unjudged(form: PaymentForm, items: Sequence[OpenItem]) -> PaymentForm:
    """The form as it was typed, before it is judged; the sum is what is open where none was typed."""
    typed = {"use": OLDEST} | {name: form[name].data for name in form.fields if form[name].data}
    if not typed.get("amount") and items:
        typed["amount"] = shown(sum((item.open_amount for item in items), Decimal(0)))
    return PaymentForm(initial=typed, items=items, **money_options())


def _page(request: HttpRequest, form: PaymentForm | DepositPaymentForm, **more: Any) -> HttpResponse:
    return render(request, "quotes/books/payment_new.html", {"form": form, **payers(), **more})


def _deposit(request: HttpRequest, asked: PaymentFor) -> HttpResponse:
    """A deposit by receipt: held for the build, or for the strip-down of a job, until it is invoiced."""
    of = {"build": asked.build, "job": asked.job}
    if request.method != "POST":
        return _page(request, DepositPaymentForm(initial=_first_deposit(asked), **money_options()), **of)
    form = DepositPaymentForm(request.POST, **money_options())
    if not form.is_valid():
        return _page(request, form, **of)
    return _taken(request, form, **of, deposit=True)


def _first_deposit(asked: PaymentFor) -> dict[str, Any]:
    first: dict[str, Any] = {"key": fresh_key(), "on": timezone.localdate()}
    if asked.build:
        return first | {"customer": payer_words(asked.build.quote.customer), "amount": asked.build.deposit}
    assert asked.job is not None
    leave = getattr(asked.job, "leave", None)
    amount = {"amount": leave.deposit} if leave and leave.deposit else {}
    return first | {"customer": payer_words(asked.job.customer)} | amount


def _taken(request: HttpRequest, form: PaymentForm | DepositPaymentForm, **more: Any) -> HttpResponse:
    told = form.cleaned_data
    known = {name: told[name] for name in ("customer", "on", "amount", "method", "reference")}
    key = told["key"] or fresh_key()
    try:
        made: Payment = take_payment(key=key, by=signed_in(request), now=timezone.now(), **known, **more)
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return _page(request, form, build=more.get("build"), job=more.get("job"))
    return redirect("payment", made.pk)


urlpatterns = [path("payments/new/", new_payment, name="payment-new")]
