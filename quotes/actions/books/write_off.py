"""What the owner gives up asking for."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.allocating import locked, settle
from quotes.actions.books.journal import post
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come
from quotes.actions.books.numbers import series_number
from quotes.actions.books.refused import NotAllocatable
from quotes.actions.saving import save_checked
from quotes.calc.books.posting import write_off_entry
from quotes.models import ItemKind, OpenItem, WriteOff
from quotes.queries.books.chart import accounts_now


@transaction.atomic
def write_off(*, item: OpenItem, amount: Decimal, reason: str, on: date, by: User, now: datetime) -> WriteOff:
    """Write off so much of what is open of an item; the view lets only the owner.

    NotAllocatable where less is open, as after a second press. ValidationError by field, MonthClosed.
    """
    in_coins(amount, currency_now())
    if not reason.strip():
        raise ValidationError({"reason": say("Write why: the accounts ask for it.")})
    number = series_number(kind="W", on=not_to_come(on, now))
    debit = locked([item.pk])[item.pk]
    _refuse_more_than_open(debit, amount)
    customer, reason = debit.customer, reason.strip()
    row = save_checked(
        WriteOff(number=number, customer=customer, on=on, amount=amount, reason=reason, by=by, at=now)
    )
    settle(_credit(row), debit, amount, on=on, by=by, now=now)
    entry = write_off_entry(
        on=on,
        number=number,
        of=debit.number,
        party=customer.name,
        amount=amount,
        accounts=accounts_now(),
    )
    post(entry=entry, by=by, now=now, write_off=row)
    return row


def _refuse_more_than_open(debit: OpenItem, amount: Decimal) -> None:
    if amount > debit.open_amount:
        most = max(debit.open_amount, ZERO)
        raise NotAllocatable(
            say(
                "{amount} can't be written off: {most} is open of {number}.",
                amount=f"{amount:f}",
                most=f"{most:f}",
                number=debit.number,
            )
        )


def _credit(row: WriteOff) -> OpenItem:
    """What is written off, on the customer's account, where it settles what was asked for."""
    return OpenItem.objects.create(
        customer=row.customer,
        kind=ItemKind.WRITE_OFF,
        number=row.number,
        on=row.on,
        amount=-row.amount,
        open_amount=-row.amount,
        write_off=row,
    )
