"""A customer's statement of account as it is sent: the account, who sends it, and where to pay."""

from __future__ import annotations

from datetime import date

from django.utils import translation

from quotes.calc.books.papers import StatementPaper
from quotes.models import Customer
from quotes.queries.books.account_letter import borne_by_letters_to
from quotes.queries.books.customer_account import statement_of


def statement_paper(customer: Customer, first: date, last: date) -> StatementPaper:
    """The account from `first` to `last`, both included, in the customer's language."""
    with translation.override(customer.reads):
        account = statement_of(customer, first, last)
    return StatementPaper(account=account, **borne_by_letters_to(customer))
