"""What every letter on a customer's account bears, read once for all of them."""

from __future__ import annotations

from typing import Any

from quotes.calc.invoice.values import Account
from quotes.models import Customer, Workshop
from quotes.queries.books.chart import books_settings
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import currency_decimals


def borne_by_letters_to(customer: Customer) -> dict[str, Any]:
    """The fields of `AccountLetter` by name: both sides, money, where to pay, paper and language."""
    workshop, settings = Workshop.objects.get_or_default(), books_settings()
    return {
        "currency": workshop.currency,
        "decimals": currency_decimals(workshop.currency),
        "workshop": workshop_party(workshop),
        "customer": customer_party(customer),
        "bank": Account(iban=settings.iban, bic=settings.bic, name=settings.account_name),
        "paper": str(workshop.paper),
        "language": customer.reads,
    }
