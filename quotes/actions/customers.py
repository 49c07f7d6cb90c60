"""Writes on customers."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime

from django.db import transaction

from catalogue.calc.said import to_say
from quotes.actions.changing import set_fields
from quotes.actions.saving import save_checked
from quotes.models import Customer

CALLED = {
    "name": to_say("name"),
    "address": to_say("address"),
    "telephone": to_say("telephone"),
    "email": to_say("email"),
    "tax_registration": to_say("tax registration"),
    "country": to_say("country"),
    "language": to_say("language"),
}
"""What each field is called where somebody else has changed it."""


@dataclass(frozen=True, slots=True)
class CustomerDetails:
    """What is kept of a customer."""

    name: str
    address: str = ""
    telephone: str = ""
    email: str = ""
    tax_registration: str = ""
    country: str = ""
    language: str = ""


@transaction.atomic
def create_customer(*, details: CustomerDetails, now: datetime) -> Customer:
    """A new customer; ValidationError with a message for each field that can't be kept."""
    customer = Customer(**asdict(details), created_at=now)
    customer.search_key = customer.make_search_key()
    return save_checked(customer)


@transaction.atomic
def update_customer(*, customer: Customer, details: CustomerDetails, expected_version: int) -> Customer:
    """Change a customer; StaleDraft where somebody else has done so since `expected_version`."""
    row = Customer.objects.select_for_update().get(pk=customer.pk)
    if set_fields(row, asdict(details), CALLED, expected_version=expected_version):
        row.search_key = row.make_search_key()
        save_checked(row)
    return row
