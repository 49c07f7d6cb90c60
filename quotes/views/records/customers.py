"""One customer: what is kept of them, their engines and their quotes."""

from __future__ import annotations

from dataclasses import asdict

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.queries import engine_type_choices
from catalogue.views.untouched import keeps_theirs
from quotes.actions.customers import CustomerDetails, create_customer, update_customer
from quotes.actions.refused import StaleDraft
from quotes.forms.records import CustomerForm
from quotes.models import Customer
from quotes.views.every_request.form_marks import version_of


def customer(request: HttpRequest, pk: int) -> HttpResponse:
    """A customer's record; a post changes it."""
    found = get_object_or_404(Customer, pk=pk)
    kept = {name: getattr(found, name) for name in asdict(CustomerDetails(name=""))}
    form = CustomerForm(request.POST if request.method == "POST" else kept)
    stale = None
    if request.method == "POST":
        try:
            update_customer(customer=found, details=form.details(), expected_version=version_of(request))
            return redirect("customer", pk)
        except StaleDraft as refused:
            stale = refused
        except ValidationError as refusal:
            form.refuse(refusal)
    return _page(request, form, found, stale)


def new_customer(request: HttpRequest) -> HttpResponse:
    """A customer who has not rung yet."""
    form = CustomerForm(request.POST)
    if request.method == "POST":
        try:
            made = create_customer(details=form.details(), now=timezone.now())
            return redirect("customer", made.pk)
        except ValidationError as refusal:
            form.refuse(refusal)
    return _page(request, form, None, None)


def _page(
    request: HttpRequest, form: CustomerForm, found: Customer | None, stale: StaleDraft | None
) -> HttpResponse:
    types = dict(engine_type_choices())
    engines = list(found.engines.all()) if found else []
    told = {
        "form": form,
        "customer": found,
        "stale": stale,
        "version": (stale.version if stale else found.version) if found else "",
        "engines": [(each, types.get(each.type_code, each.type_code)) for each in engines],
        "quotes": found.quotes.with_state(timezone.localdate()).joined() if found else (),
    }
    return render(request, "quotes/customers_edit.html", told)


urlpatterns = [
    path("customers/new/", new_customer, name="customer-new"),
    path("customers/<int:pk>/", keeps_theirs(customer), name="customer"),
]
