"""What the tests of the ledger do with money. Everything happens on the day of the cast unless it says so."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import uuid4

from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.actions.books.paying_back import refund
from quotes.actions.books.payments import take_payment
from quotes.actions.books.reversing import reverse_payment
from quotes.models import Acceptance, Customer, Invoice, OpenItem, Payment, SupplierBill
from quotes.queries.books.balances import trial_balance
from tests.cast import books, desk
from tests.quotes.cast import NOW, ON

FAR = date(2030, 1, 1)
"""After everything."""


def marel() -> Customer:
    return Customer.objects.get(name="Marel Otten")


def item_of(document: Invoice | Payment) -> OpenItem:
    return OpenItem.objects.get(number=document.number)


def still_open(document: Invoice | Payment) -> Any:
    """What is open of it now: a Decimal, untyped so that it is compared with whole numbers."""
    return item_of(document).open_amount


def paid(amount: Decimal | str, **change: Any) -> Payment:
    """A transfer from Marel Otten; settles the oldest first."""
    fields: dict[str, Any] = {
        "customer": change.pop("customer", None) or marel(),
        "on": ON,
        "amount": Decimal(amount),
        "method": "transfer",
        "key": uuid4().hex,
        "by": desk(),
        "now": NOW,
    }
    return take_payment(**(fields | change))


def deposit(build: Acceptance, amount: str = "500", **change: Any) -> Payment:
    """A deposit by receipt."""
    return paid(amount, build=build, deposit=True, **change)


def on_items(**sums: str) -> Mapping[int, Decimal]:
    """Item to sum, by the number of the document with blanks for its hyphens: I_2026_0001="100"."""
    return {
        OpenItem.objects.get(number=number.replace("_", "-")).pk: Decimal(amount)
        for number, amount in sums.items()
    }


def paid_back(amount: Decimal | str, **change: Any) -> Payment:
    fields: dict[str, Any] = {
        "customer": change.pop("customer", None) or marel(),
        "on": ON,
        "amount": Decimal(amount),
        "method": "transfer",
        "key": uuid4().hex,
        "by": books(),
        "now": NOW,
    }
    return refund(**(fields | change))


def bounced(payment: Payment, **change: Any) -> Payment:
    fields: dict[str, Any] = {"on": ON, "by": books(), "now": NOW, "note": "The bank sent it back"}
    return reverse_payment(payment=payment, **(fields | change))


def billed(number: str = "4711", *lines: BillLineGiven, tax: str = "0", **change: Any) -> SupplierBill:
    """A bill of a supplier; without lines, overheads of 100."""
    fields: dict[str, Any] = {
        "supplier": "Main parts wholesale",
        "supplier_number": number,
        "on": ON,
        "due_on": None,
        "lines": lines or (for_what("overhead", "100"),),
        "tax": Decimal(tax),
        "by": books(),
        "now": NOW,
    }
    return enter_bill(**(fields | change))


def for_what(kind: str, net: str, build: Acceptance | None = None) -> BillLineGiven:
    return BillLineGiven(kind, f"Some {kind}", Decimal(net), build)


def balance(role: str) -> Any:
    """Debits less credits of an account, up to the end of everything; untyped as well."""
    return trial_balance(FAR).balance_of(role)
