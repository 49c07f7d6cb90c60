"""Erasing a customer: what would go and what has to stay, and the press that does it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.erasing import StillInHand, erase_customer
from quotes.models import Customer
from quotes.queries.erasure.plan import BY_HAND, erasure_plan, in_hand
from quotes.queries.people import name_of


def erase(request: HttpRequest, pk: int) -> HttpResponse:
    """Both lists; a post erases."""
    customer = get_object_or_404(Customer, pk=pk)
    now = timezone.now()
    on = timezone.localdate(now)
    if request.method == "POST":
        try:
            plan = erase_customer(customer=customer, by=name_of(request.user), now=now, as_of=on)
        except StillInHand as refused:
            messages.error(request, str(refused))
            return redirect("customer-erase", pk)
        erased = say("C-{number} is erased.", number=pk)
        before = say("C-{number} was erased before: nothing was left.", number=pk)
        messages.success(request, erased if plan.goes else before)
        return redirect("customer", pk)
    told = {
        "customer": customer,
        "plan": erasure_plan(customer, on),
        "reasons": in_hand(customer),
        "by_hand": BY_HAND,
        "erasures": customer.erasures.all(),
    }
    return render(request, "quotes/customer_erase.html", told)


urlpatterns = [path("customers/<int:pk>/erase/", erase, name="customer-erase")]
