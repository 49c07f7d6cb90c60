"""What the pages of invoices and payments have in common: who opens them, files as stored, the payers."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from quotes.models import Workshop
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
