"""What the tests of the books' pages have in common: a browser of each role, and money of some days ago."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from django.test import Client
from django.utils import timezone

from quotes.actions.books.drafts import start_invoice
from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.models import Acceptance, Invoice, SupplierBill
from quotes.queries.people import Role
from tests.books import cast
from tests.cast import books, person
from tests.written_again import written_again


def browser(role: Role = "books") -> Client:
    client = Client()
    client.force_login(person(role))
    return client


def ago(days: int) -> datetime:
    """At the hour, so that what was made then is written again."""
    return timezone.now().replace(minute=0, second=0, microsecond=0) - timedelta(days=days)


def day(days: int = 0) -> date:
    return timezone.localdate(ago(days))


def invoiced(build: Acceptance, days: int = 60, **options: Any) -> Invoice:
    """All of a build, so many days ago."""
    return _invoiced(build, ago(days), **options)


@written_again
def _invoiced(build: Acceptance, at: datetime, **options: Any) -> Invoice:
    return cast.issue(start_invoice(build=build, by=books(), now=at, **options), now=at)


def bill(number: str = "8841", *, days: int = 5, due: int | None = None, **change: Any) -> SupplierBill:
    """412 for parts and 82.40 of tax, `days` ago, to be paid `due` days ago."""
    fields: dict[str, Any] = {
        "supplier": "Fenwright Parts",
        "supplier_number": number,
        "on": day(days),
        "due_on": None if due is None else day(due),
        "lines": [BillLineGiven("part", "Piston set", Decimal(412), change.pop("build", None))],
        "tax": Decimal("82.40"),
        "by": books(),
        "now": timezone.now(),
    }
    return enter_bill(**(fields | change))
