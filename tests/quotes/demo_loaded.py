"""A demo workshop that is loaded once for all tests of a file, and gone after them."""

from __future__ import annotations

from collections.abc import Iterator
from io import StringIO

from django.core.management import call_command
from django.db import transaction
from pytest_django import DjangoDbBlocker

from quotes.models import (
    Acceptance,
    Booking,
    Customer,
    Engine,
    Enquiry,
    Quote,
    Revision,
    Segment,
    Workshop,
)


def load(style: str = "sales-tax") -> str:
    """Load it as the command does, and give what it printed."""
    said = StringIO()
    call_command("load_demo", style=style, stdout=said)
    return said.getvalue()


def loaded_once(style: str, blocker: DjangoDbBlocker) -> Iterator[None]:
    """For a fixture of module scope: loading works out eight quotes, which takes seconds."""
    with blocker.unblock(), transaction.atomic():
        load(style)
        yield
        transaction.set_rollback(True)


def counted() -> dict[str, int]:
    """How many rows there are of what a demo brings."""
    models = (Workshop, Customer, Engine, Segment, Quote, Revision, Acceptance, Enquiry, Booking)
    return {model.__name__: model.objects.count() for model in models}
