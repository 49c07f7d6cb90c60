"""Money that comes from customers and goes back to them, each with its entry and its place on the account."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.actions.books.allocating import (
    locked,
    locked_open,
    settle,
    settle_oldest,
)
from quotes.actions.books.journal import post
from quotes.actions.books.keeping_payments import kept_once
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come, way_to_pay
from quotes.actions.books.refused import NotAllocatable
from quotes.calc.books.posting import MoneyMoved, payment_entry
from quotes.models import Acceptance, Customer, ItemKind, Job, OpenItem, Payment, PaymentKind
from quotes.queries.books.chart import accounts_now


@transaction.atomic
def take_payment(
    *,
    customer: Customer,
    on: date,
    amount: Decimal,
    method: str,
    key: str,
    by: User,
    now: datetime,
    reference: str = "",
    note: str = "",
    allocate: Mapping[int, Decimal] | None = None,
    build: Acceptance | None = None,
    job: Job | None = None,
    deposit: bool = False,
) -> Payment:
    """Take a payment; with the same `key` again it is the same payment.

    `allocate` says how much of it settles which open item (by pk); None settles the oldest due first. What is
    left stays in credit on the customer's account. A `deposit` settles nothing: it is held for its build, or
    for the strip-down of a `job` until there is one.
    ValidationError by field, MonthClosed, NotAllocatable, KeyTaken.
    """
    currency = currency_now()
    _refuse_unfit_deposit(build or job, deposit, allocate)
    payment, new = kept_once(
        Payment(
            kind=PaymentKind.RECEIVED,
            customer=customer,
            build=build,
            job=job,
            deposit=deposit,
            on=not_to_come(on, now),
            amount=in_coins(amount, currency),
            currency=currency,
            method=way_to_pay(method),
            reference=reference.strip(),
            note=note.strip(),
            key=key,
            taken_by=by,
            taken_at=now,
        )
    )
    if new:
        _book(payment, by, now)
        if not deposit:
            _spread(payment, allocate, by, now)
    return payment


def _refuse_unfit_deposit(
    of: Acceptance | Job | None, deposit: bool, wanted: Mapping[int, Decimal] | None
) -> None:
    if deposit and of is None:
        raise ValidationError({"build": say("A deposit is held for a build: say for which.")})
    if deposit and wanted:
        raise ValidationError({"deposit": say("A deposit is held for its build and settles nothing yet.")})


def _book(payment: Payment, by: User, now: datetime) -> None:
    moved = MoneyMoved(
        on=payment.on,
        number=payment.number,
        party=payment.customer.name,
        method=payment.method,
        amount=payment.amount,
        came_in=True,
        deposit=payment.deposit,
        build=str(payment.build.quote.number) if payment.build and payment.deposit else "",
        text=to_say("Deposit") if payment.deposit else to_say("Payment"),
    )
    post(entry=payment_entry(moved, accounts_now()), by=by, now=now, payment=payment)


def _spread(payment: Payment, wanted: Mapping[int, Decimal] | None, by: User, now: datetime) -> None:
    """Put the payment on the customer's account and settle with it what it was meant for."""
    debits = locked_open(payment.customer) if wanted is None else locked(wanted)
    credit = OpenItem.objects.create(
        customer=payment.customer,
        kind=ItemKind.PAYMENT,
        number=payment.number,
        on=payment.on,
        amount=-payment.amount,
        open_amount=-payment.amount,
        payment=payment,
    )
    if wanted is None:
        settle_oldest(credit, debits.values(), on=payment.on, by=by, now=now)
        return
    meant = sum(wanted.values(), ZERO)
    if meant > payment.amount:
        raise NotAllocatable(
            say(
                "{meant} would be settled with a payment of {amount}.",
                meant=f"{meant:f}",
                amount=f"{payment.amount:f}",
            )
        )
    for pk, share in sorted(wanted.items()):
        if share:
            settle(credit, debits[pk], share, on=payment.on, by=by, now=now)
