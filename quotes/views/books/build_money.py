"""The money of a build, and beginning its documents: deposit, invoice, a part of it for another payer."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from quotes.actions.books.drafts import start_deposit, start_invoice
from quotes.actions.refused import Refused
from quotes.forms.books.build import PartOfItForm
from quotes.forms.books.refusing import refuse
from quotes.models import Acceptance, InvoiceDraft
from quotes.views.books.build_page import render_build, the_build
from quotes.views.every_request.person import signed_in


@require_safe
def build_money(request: HttpRequest, pk: int) -> HttpResponse:
    """What is agreed, asked for, held and still to come."""
    return render_build(request, the_build(pk))


@require_POST
def deposit(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin the deposit invoice."""
    return _started(request, the_build(pk), start_deposit)


@require_POST
def invoice(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin the invoice for all that is left."""
    return _started(request, the_build(pk), start_invoice)


def _started(
    request: HttpRequest, build: Acceptance, start: Callable[..., InvoiceDraft], **options: Any
) -> HttpResponse:
    """The draft's page, or why there is none."""
    try:
        draft = start(build=build, by=signed_in(request), now=timezone.now(), **options)
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("build-money", build.pk)
    return redirect("invoice-draft", draft.pk)


@require_POST
def part_of_it(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin an invoice for some of the lines, or a share of them, or for another payer."""
    build, form = the_build(pk), PartOfItForm(request.POST, prefix="part")
    if not form.is_valid():
        return render_build(request, build, part_form=form)
    try:
        return _started(
            request,
            build,
            start_invoice,
            payer=form.cleaned_data["payer"],
            kinds=form.given_kinds(),
            share_pct=form.given_share(),
        )
    except ValidationError as wrong:
        refuse(form, wrong)
        return render_build(request, build, part_form=form)


urlpatterns = [
    path("invoices/builds/<int:pk>/", build_money, name="build-money"),
    path("invoices/builds/<int:pk>/deposit/", deposit, name="build-deposit"),
    path("invoices/builds/<int:pk>/invoice/", invoice, name="build-invoice"),
    path("invoices/builds/<int:pk>/part/", part_of_it, name="build-part"),
]
