"""A customer's statement of account as it is sent: the account, who sends it, and where to pay."""

from __future__ import annotations

from datetime import date
from typing import Literal, cast

from django.utils import translation

from quotes.calc.books.papers import StatementPaper
from quotes.calc.invoice.values import Account
from quotes.models import Customer, Workshop
from quotes.queries.books.ledger import books_settings, statement_of
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import currency_decimals


def statement_paper(customer: Customer, first: date, last: date) -> StatementPaper:
    """The account from `first` to `last`, both included, in the customer's language."""
    workshop, settings = Workshop.objects.get_or_default(), books_settings()
    with translation.override(customer.reads):
        account = statement_of(customer, first, last)
    return StatementPaper(
        account=account,
        currency=workshop.currency,
        decimals=currency_decimals(workshop.currency),
        workshop=workshop_party(workshop),
        customer=customer_party(customer),
        bank=Account(iban=settings.iban, bic=settings.bic, name=settings.account_name),
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=customer.reads,
    )
