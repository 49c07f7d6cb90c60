"""Money that goes back to a customer: from what he has in credit, or from a deposit held for his build."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.actions.books.allocating import locked, settle
from quotes.actions.books.journal import post
from quotes.actions.books.keeping_payments import kept_once
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come, way_to_pay
from quotes.actions.books.refused import NothingToPayBack
from quotes.calc.books.posting import MoneyMoved, payment_entry
from quotes.models import Acceptance, Customer, ItemKind, Job, OpenItem, Payment, PaymentKind
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.deposits import held_of


@transaction.atomic
def refund(
    *,
    customer: Customer,
    on: date,
    amount: Decimal,
    method: str,
    key: str,
    by: User,
    now: datetime,
    from_item: OpenItem | None = None,
    deposit_of: Acceptance | Job | None = None,
    note: str = "",
) -> Payment:
    """Pay back from a credit on the customer's account, or from the deposit by receipt of a build or job.

    With the same `key` again it is the same payment. NothingToPayBack where it would be more than is there.
    """
    if (from_item is None) == (deposit_of is None):
        raise ValidationError(
            {"from_item": say("Say what is paid back: a credit, or the deposit of a build.")}
        )
    build, job = _locked_deposit(deposit_of)
    currency = currency_now()
    payment, new = kept_once(
        Payment(
            kind=PaymentKind.REFUND,
            customer=customer,
            build=build,
            job=job,
            deposit=deposit_of is not None,
            on=not_to_come(on, now),
            amount=in_coins(amount, currency),
            currency=currency,
            method=way_to_pay(method),
            note=note.strip(),
            key=key,
            taken_by=by,
            taken_at=now,
        )
    )
    if not new:
        return payment
    if from_item is not None:
        _from_credit(payment, from_item, by, now)
    else:
        _refuse_more_than_held(payment)
    post(entry=payment_entry(_moved(payment), accounts_now()), by=by, now=now, payment=payment)
    return payment


def _locked_deposit(of: Acceptance | Job | None) -> tuple[Acceptance | None, Job | None]:
    """The build or the job that a deposit is held for, locked: nobody else pays it back meanwhile."""
    if isinstance(of, Acceptance):
        return Acceptance.objects.select_for_update().get(pk=of.pk), None
    return None, Job.objects.select_for_update().get(pk=of.pk) if of else None


def _from_credit(payment: Payment, from_item: OpenItem, by: User, now: datetime) -> None:
    credit = locked([from_item.pk])[from_item.pk]
    most = max(-credit.open_amount, ZERO) if credit.customer_id == payment.customer_id else ZERO
    if payment.amount > most:
        raise NothingToPayBack(
            payment.amount, most, say("{number}, for this customer,", number=credit.number)
        )
    debit = OpenItem.objects.create(
        customer=payment.customer,
        kind=ItemKind.REFUND,
        number=payment.number,
        on=payment.on,
        amount=payment.amount,
        open_amount=payment.amount,
        payment=payment,
    )
    settle(credit, debit, payment.amount, on=payment.on, by=by, now=now)


def _refuse_more_than_held(payment: Payment) -> None:
    """The refund itself is kept by now, so what is held is what is left after it."""
    left = held_of(payment, payment.customer_id)
    if left < ZERO:
        most = max(left + payment.amount, ZERO)
        of = payment.build.quote.number if payment.build else payment.job and payment.job.number
        raise NothingToPayBack(payment.amount, most, say("the deposit of {of}", of=of))


def _moved(payment: Payment) -> MoneyMoved:
    return MoneyMoved(
        on=payment.on,
        number=payment.number,
        party=payment.customer.name,
        method=payment.method,
        amount=payment.amount,
        came_in=False,
        deposit=payment.deposit,
        build=str(payment.build.quote.number) if payment.build else "",
        text=to_say("Paid back"),
    )
