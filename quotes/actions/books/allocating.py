"""Settling what a customer owes with what he has in credit: the only place that moves an open amount."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Q, Sum

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.journal import refuse_closed
from quotes.actions.books.refused import NotAllocatable
from quotes.actions.saving import save_checked
from quotes.models import Allocation, Customer, OpenItem
from quotes.queries.books.exact import exact
from quotes.queries.people import name_of

Locked = Mapping[int, OpenItem]


@transaction.atomic
def allocate(
    *, credit: OpenItem, debit: OpenItem, amount: Decimal, on: date, by: User, now: datetime
) -> Allocation:
    """Settle so much of `debit` with `credit`. NotAllocatable where either has less open than that."""
    refuse_closed(on)
    items = locked([credit.pk, debit.pk])
    return settle(items[credit.pk], items[debit.pk], amount, on=on, by=by, now=now)


@transaction.atomic
def set_off(*, customer: Customer, on: date, by: User, now: datetime) -> tuple[Allocation, ...]:
    """Settle what the customer owes with all he has in credit, the oldest due first."""
    refuse_closed(on)
    items = locked_open(customer).values()
    made: list[Allocation] = []
    for credit in oldest_first(item for item in items if item.open_amount < ZERO):
        made += settle_oldest(credit, items, on=on, by=by, now=now)
    return tuple(made)


@transaction.atomic
def take_apart(*, allocation: Allocation, on: date, by: User, now: datetime) -> Allocation | None:
    """Undo what one item has settled of another, so that both are open again; None where nothing is left."""
    refuse_closed(on)
    items = locked([allocation.credit_id, allocation.debit_id])
    return _undo(items[allocation.credit_id], items[allocation.debit_id], on=on, by=by, now=now)


def locked(keys: Iterable[int]) -> dict[int, OpenItem]:
    """The items as they stand now, held until the transaction ends; always in one order, so none waits twice.

    KeyError where one is not there.
    """
    wanted = set(keys)
    rows = OpenItem.objects.select_for_update().filter(pk__in=wanted).order_by("pk")
    found = {row.pk: row for row in rows}
    if missing := wanted - found.keys():
        raise KeyError(f"no open item {sorted(missing)}")
    return found


def locked_open(customer: Customer) -> dict[int, OpenItem]:
    """All items of a customer that are open now, held until the transaction ends."""
    rows = OpenItem.objects.select_for_update().filter(customer=customer).open().order_by("pk")
    return {row.pk: row for row in rows if row.open_amount}


def oldest_first(items: Iterable[OpenItem]) -> list[OpenItem]:
    """By the day each was to be paid, else by its own."""
    return sorted(items, key=lambda item: (item.due_on or item.on, item.on, item.pk))


def settle_oldest(
    credit: OpenItem, items: Iterable[OpenItem], *, on: date, by: User, now: datetime
) -> list[Allocation]:
    """Spread a credit over what is owed, the oldest due first, as far as it goes. All rows are locked."""
    made = []
    for debit in oldest_first(item for item in items if item.open_amount > ZERO):
        amount = min(debit.open_amount, -credit.open_amount)
        if amount:
            made.append(settle(credit, debit, amount, on=on, by=by, now=now))
    return made


def settle(
    credit: OpenItem, debit: OpenItem, amount: Decimal, *, on: date, by: User, now: datetime
) -> Allocation:
    """Write one allocation of two locked rows and move both open amounts by it."""
    _refuse_unlike(credit, debit)
    most = min(-credit.open_amount, debit.open_amount)
    if amount <= ZERO or amount > most:
        raise NotAllocatable(
            say(
                "{amount} of {number} on {debit}: {open_amount} of the one and "
                "{owed} of the other are open, so above 0 and at most {most} can be "
                "settled.",
                amount=f"{amount:f}",
                number=credit.number,
                debit=debit.number,
                open_amount=f"{-credit.open_amount:f}",
                owed=f"{debit.open_amount:f}",
                most=f"{most:f}",
            )
        )
    return _write(credit, debit, amount, on=on, by=by, now=now)


def _refuse_unlike(credit: OpenItem, debit: OpenItem) -> None:
    if credit.customer_id != debit.customer_id:
        raise NotAllocatable(
            say(
                "{number} and {debit} are of two customers.",
                number=credit.number,
                debit=debit.number,
            )
        )
    if credit.amount > ZERO or debit.amount < ZERO:
        raise NotAllocatable(
            say(
                "{number} can't settle {debit}: a credit settles what is owed, not the other way.",
                number=credit.number,
                debit=debit.number,
            )
        )


def undo_all(item: OpenItem, *, on: date, by: User, now: datetime) -> None:
    """Undo everything that an item has settled, or that has settled it, so that all of it is open again."""
    # All of the customer's items, in one order: what else settles it is known for certain only then.
    everything = OpenItem.objects.select_for_update().filter(customer_id=item.customer_id).order_by("pk")
    rows = {row.pk: row for row in everything}
    pairs = Allocation.objects.filter(Q(credit=item) | Q(debit=item)).values_list("credit", "debit")
    for credit, debit in sorted(set(pairs)):
        _undo(rows[credit], rows[debit], on=on, by=by, now=now)
    item.open_amount = rows[item.pk].open_amount


def _undo(credit: OpenItem, debit: OpenItem, *, on: date, by: User, now: datetime) -> Allocation | None:
    settled = exact(Allocation.objects.filter(credit=credit, debit=debit).aggregate(sum=Sum("amount"))["sum"])
    if not settled:
        return None
    return _write(credit, debit, -settled, on=on, by=by, now=now)


def _write(
    credit: OpenItem, debit: OpenItem, amount: Decimal, *, on: date, by: User, now: datetime
) -> Allocation:
    """An allocation is not older than what it settles."""
    credit.open_amount += amount
    debit.open_amount -= amount
    for item in (credit, debit):
        item.save(update_fields=["open_amount"])
    day = max(on, credit.on, debit.on)
    return save_checked(Allocation(credit=credit, debit=debit, amount=amount, on=day, at=now, by=name_of(by)))
