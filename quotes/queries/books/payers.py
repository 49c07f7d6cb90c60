"""Finding the customer who pays by what somebody types."""

from __future__ import annotations

from catalogue.calc.search_key import search_key
from quotes.models import Customer

OFFERED = 300
"""So many names stand in the list beside the field; any other is found by typing it."""
NAMED = 4
"""So many are named where several are meant."""


def payers_offered() -> list[str]:
    """Customers as the field offers them, by name."""
    rows = Customer.objects.order_by("name", "pk").only("name", "telephone")
    return [payer_words(row) for row in rows[:OFFERED]]


def payer_words(customer: Customer) -> str:
    """A customer as the field names them: the telephone number tells two of one name apart."""
    return f"{customer.name}, {customer.telephone}" if customer.telephone else customer.name


def payers_found(typed: str) -> list[Customer]:
    """Who may be meant: the one whose words stand there whole, else everybody who has every word."""
    words = " ".join(typed.replace(",", " ").split())
    found = list(Customer.objects.found_by(words)[: NAMED + 1]) if words else []
    key = search_key(words)
    exact = [row for row in found if key in (search_key(row.name), _key(row))]
    return exact if len(exact) == 1 else found


def _key(customer: Customer) -> str:
    return search_key(" ".join(payer_words(customer).replace(",", " ").split()))
