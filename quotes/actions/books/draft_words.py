"""What is said where a draft is begun: on it, or why there is none."""

from __future__ import annotations

from collections.abc import Collection

from django.utils import translation

from catalogue.calc.said import say
from quotes.models import Customer, InvoiceKind
from quotes.queries.books.account import BuildAccount


def deposit_words(account: BuildAccount, customer: Customer) -> str:
    """In the language of whose invoice it stands on."""
    agreed = account.agreed
    with translation.override(customer.reads):
        return say("Deposit for {option}, quote {quote}", option=agreed.option, quote=agreed.quote)[:200]


def nothing_left(account: BuildAccount, kinds: Collection[str] | None) -> str:
    """Why there is nothing to invoice."""
    numbers = ", ".join(row.number for row in account.documents if row.kind == InvoiceKind.INVOICE)
    if account.to_invoice and kinds:
        return say("Nothing of {names} is left to invoice.", names=", ".join(sorted(kinds)))
    if numbers:
        return say("All that was accepted has been asked for: {numbers}.", numbers=numbers)
    if account.build.is_called_off:
        return say("Nothing was done, bought or clocked before it was called off.")
    return say("Nothing was accepted.")
