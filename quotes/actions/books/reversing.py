"""Taking back a payment that did not hold, such as a cheque that bounced."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.allocating import settle, undo_all
from quotes.actions.books.journal import post
from quotes.actions.books.keeping_payments import kept_once
from quotes.actions.books.money_given import not_to_come
from quotes.actions.books.refused import NotReversible
from quotes.calc.books.posting import MoneyMoved, payment_entry
from quotes.models import Acceptance, ItemKind, OpenItem, Payment, PaymentKind
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.deposits import build_of_payment, left_of_receipt


@transaction.atomic
def reverse_payment(*, payment: Payment, on: date, by: User, now: datetime, note: str) -> Payment:
    """Take a payment or refund back: what it settled is open again. A second press gives the same reversal.

    A deposit that an invoice has taken off already is owed by the customer instead.
    """
    if payment.kind == PaymentKind.REVERSAL:
        raise NotReversible(
            say("{number} takes a payment back itself. Take a new payment instead.", number=payment.number)
        )
    Payment.objects.select_for_update().get(pk=payment.pk)
    if standing := Payment.objects.filter(reverses=payment).first():
        return standing
    _refuse_unfit(payment, on, note)
    owed = _owed(payment)
    reversal = _opposite(payment)
    reversal.on, reversal.note = not_to_come(on, now), note.strip()
    reversal.taken_by, reversal.taken_at = by, now
    reversal, new = kept_once(reversal)
    if new:
        post(entry=payment_entry(_moved(reversal, owed), accounts_now()), by=by, now=now, payment=reversal)
        if owed:
            _open_again(reversal, owed, by, now)
    return reversal


def _opposite(payment: Payment) -> Payment:
    return Payment(
        kind=PaymentKind.REVERSAL,
        customer=payment.customer,
        build=payment.build,
        job=payment.job,
        deposit=payment.deposit,
        amount=payment.amount,
        currency=payment.currency,
        method=payment.method,
        reverses=payment,
        key=f"reversal of {payment.number}",
    )


def _refuse_unfit(payment: Payment, on: date, note: str) -> None:
    if on < payment.on:
        said = say(
            "{on} is before {number} itself, {payment_on}.",
            on=on,
            number=payment.number,
            payment_on=payment.on,
        )
        raise ValidationError({"on": said})
    if not note.strip():
        raise ValidationError({"note": say("Write why it is taken back.")})


def _owed(payment: Payment) -> Decimal:
    """What goes to the customer's account: all of it, but for what is still held as a deposit."""
    if not payment.deposit:
        return payment.amount
    if payment.kind == PaymentKind.REFUND:
        return ZERO
    if build := build_of_payment(payment):
        Acceptance.objects.select_for_update(of=("self",)).get(pk=build.pk)
    return payment.amount - left_of_receipt(payment)


def _open_again(reversal: Payment, owed: Decimal, by: User, now: datetime) -> None:
    original = reversal.reverses
    assert original is not None
    amount = owed if original.kind == PaymentKind.RECEIVED else -owed
    against = OpenItem.objects.create(
        customer=reversal.customer,
        kind=ItemKind.PAYMENT,
        number=reversal.number,
        on=reversal.on,
        amount=amount,
        open_amount=amount,
        payment=reversal,
    )
    item = OpenItem.objects.filter(payment=original).first()
    if item is None:  # a deposit that is in an invoice by now: the customer owes it again
        return
    undo_all(item, on=reversal.on, by=by, now=now)
    credit, debit = (item, against) if item.amount < ZERO else (against, item)
    settle(credit, debit, reversal.amount, on=reversal.on, by=by, now=now)


def _moved(reversal: Payment, owed: Decimal) -> MoneyMoved:
    original = reversal.reverses
    assert original is not None
    return MoneyMoved(
        on=reversal.on,
        number=reversal.number,
        party=reversal.customer.name,
        method=reversal.method,
        amount=reversal.amount,
        came_in=original.kind == PaymentKind.REFUND,
        deposit=reversal.deposit,
        owed=owed if reversal.deposit else ZERO,
        build=str(reversal.build.quote.number) if reversal.build and reversal.deposit else "",
        text=say("Taken back {number}:", number=original.number),
    )
