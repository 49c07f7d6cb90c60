"""The rows behind the opening balances: items of customers, bills of suppliers, deposits held for builds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.keeping_payments import kept_once
from quotes.actions.books.money_given import currency_now
from quotes.actions.books.numbers import series_number
from quotes.actions.saving import save_checked
from quotes.models import (
    Acceptance,
    Customer,
    ItemKind,
    OpenItem,
    Payment,
    PaymentKind,
    PaymentMethod,
    SupplierBill,
)


@dataclass(frozen=True, slots=True)
class OpeningItem:
    """What a customer owed, or with a sum below nought had in credit, by the number of its document then."""

    customer: Customer
    number: str
    on: date
    due_on: date | None
    amount: Decimal


@dataclass(frozen=True, slots=True)
class OpeningBill:
    """What was owed to a supplier, tax included."""

    supplier: str
    supplier_number: str
    on: date
    due_on: date | None
    gross: Decimal


@dataclass(frozen=True, slots=True)
class OpeningDeposit:
    """What a customer had paid for a build before the books began."""

    build: Acceptance
    amount: Decimal


def keep_items(items: Sequence[OpeningItem], on: date) -> None:
    for item in items:
        save_checked(
            OpenItem(
                customer=item.customer,
                kind=ItemKind.OPENING,
                number=item.number.strip(),
                on=item.on,
                due_on=item.due_on,
                amount=item.amount,
                open_amount=item.amount,
            )
        )


def keep_bills(bills: Sequence[OpeningBill], on: date, by: User, now: datetime) -> None:
    """They have no lines: what they were for is in the books before these."""
    for bill in bills:
        save_checked(
            SupplierBill(
                number=series_number(kind="S", on=on),
                supplier=" ".join(bill.supplier.split()),
                supplier_number=" ".join(bill.supplier_number.split()),
                on=bill.on,
                due_on=bill.due_on,
                net=bill.gross,
                tax=ZERO,
                gross=bill.gross,
                note=say("Opening balance"),
                entered_by=by,
                entered_at=now,
            )
        )


def keep_deposits(deposits: Sequence[OpeningDeposit], on: date, by: User, now: datetime) -> None:
    """Each as a receipt, so that the invoice can take it off; the money itself is in the opening balances."""
    currency = currency_now()
    for held in deposits:
        kept_once(
            Payment(
                kind=PaymentKind.RECEIVED,
                customer=held.build.quote.customer,
                build=held.build,
                deposit=True,
                on=on,
                amount=held.amount,
                currency=currency,
                method=PaymentMethod.TRANSFER,
                note=say("Opening balance"),
                key=f"opening {on.isoformat()} {held.build.pk}",
                taken_by=by,
                taken_at=now,
            )
        )
