"""Crediting an issued document: a draft with all its lines, to be kept whole or cut down, and issued."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from quotes.actions.books.drafts import start_credit
from quotes.actions.refused import Refused
from quotes.models import Invoice
from quotes.views.every_request.person import signed_in


@require_POST
def credit(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin a credit note for all that is left of a document."""
    row = get_object_or_404(Invoice, pk=pk)
    try:
        draft = start_credit(invoice=row, by=signed_in(request), now=timezone.now())
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("invoice", pk)
    return redirect("invoice-draft", draft.pk)


urlpatterns = [path("invoices/<int:pk>/credit/", credit, name="invoice-credit")]
