"""What the pages of invoices and payments have in common: who opens them, files as stored, the payers."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.utils import timezone
from django.utils.cache import get_conditional_response

from quotes.models import StoredFile, Workshop
from quotes.queries.books.payers import payers_offered
from quotes.queries.workshop import currency_decimals


def money_options() -> dict[str, Any]:
    """Currency, its decimals and today, as the money forms want them."""
    currency = Workshop.objects.get_or_default().currency
    return {
        "currency": currency,
        "decimals": currency_decimals(currency),
        "today": timezone.localdate(),
    }


def payers() -> dict[str, Any]:
    """The list beside the field for who pays."""
    return {"payers": payers_offered()}


def served(request: HttpRequest, file: StoredFile) -> HttpResponseBase:
    """The bytes as they were stored; the fingerprint lets a browser keep what it has (304)."""
    answer = HttpResponse(bytes(file.content), content_type=file.content_type)
    answer["Content-Disposition"] = f'inline; filename="{file.name}"'
    answer["ETag"] = f'"{file.sha256}"'
    return get_conditional_response(request, answer["ETag"], None, answer) or answer
