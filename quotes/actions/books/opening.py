"""The balances that the books begin with, down to each customer's item, supplier's bill and deposit held."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.actions.books.journal import pass_the_gate, post
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come
from quotes.actions.books.opening_rows import (
    OpeningBill,
    OpeningDeposit,
    OpeningItem,
    keep_bills,
    keep_deposits,
    keep_items,
)
from quotes.actions.books.refused_months import OpeningEntered, OpeningOutOfBalance
from quotes.calc.books.accounts import DEFAULT_ACCOUNTS, ON_THE_CREDIT_SIDE
from quotes.calc.books.posting import OpeningLine, opening_entry
from quotes.calc.books.values import Role
from quotes.models import JournalEntry, JournalSource
from quotes.queries.books.chart import accounts_now

ITEMISED: Mapping[Role, str] = {
    "receivables": to_say("customers"),
    "payables": to_say("suppliers"),
    "deposits_held": to_say("deposits"),
}
"""Balances that are entered one by one."""


@dataclass(frozen=True, slots=True)
class _Given:
    amounts: Mapping[Role, Decimal]
    customers: Sequence[OpeningItem]
    suppliers: Sequence[OpeningBill]
    deposits: Sequence[OpeningDeposit]

    def balances(self) -> list[OpeningLine]:
        found = [OpeningLine(role=role, amount=amount) for role, amount in self.amounts.items() if amount]
        for item in self.customers:
            text = f"{item.customer.name}: {item.number}"
            found.append(OpeningLine(role="receivables", amount=item.amount, text=text))
        for bill in self.suppliers:
            text = f"{bill.supplier}: {bill.supplier_number}"
            found.append(OpeningLine(role="payables", amount=bill.gross, text=text))
        for held in self.deposits:
            build = str(held.build.quote.number)
            found.append(OpeningLine(role="deposits_held", amount=held.amount, build=build))
        return found


@transaction.atomic
def enter_opening(
    *,
    on: date,
    amounts: Mapping[Role, Decimal],
    by: User,
    now: datetime,
    customers: Sequence[OpeningItem] = (),
    suppliers: Sequence[OpeningBill] = (),
    deposits: Sequence[OpeningDeposit] = (),
) -> JournalEntry:
    """Enter what the books begin with on a day, once for that day.

    `amounts` are above nought on each account's own side. Where `opening` (what the owner has put in) is
    among them, the two sides must agree, else OpeningOutOfBalance names the difference; where it is not, it
    is what the others leave. OpeningEntered, ValidationError by field, MonthClosed.
    """
    given = _Given(amounts, customers, suppliers, deposits)
    _refuse_unfit(given, not_to_come(on, now))
    _refuse_twice(on)
    entry = opening_entry(on=on, balances=_balanced(given), accounts=accounts_now())
    keep_items(customers, on)
    # Receipts before bills: whoever closes a month holds the series in the order of their letters.
    keep_deposits(deposits, on, by, now)
    keep_bills(suppliers, on, by, now)
    pass_the_gate()  # after the numbers, as every document does
    _refuse_twice(on)
    builds = {str(held.build.quote.number): held.build for held in deposits}
    return post(entry=entry, by=by, now=now, builds=builds)


def _refuse_twice(on: date) -> None:
    if JournalEntry.objects.filter(source=JournalSource.OPENING, on=on).exists():
        raise OpeningEntered(on)


def _balanced(given: _Given) -> list[OpeningLine]:
    balances = given.balances()
    debits = credits = ZERO
    for line in balances:
        if (line.role in ON_THE_CREDIT_SIDE) == (line.amount > ZERO):
            credits += abs(line.amount)
        else:
            debits += abs(line.amount)
    if debits == credits:
        return balances
    if "opening" in given.amounts:
        raise OpeningOutOfBalance(debits, credits)
    text = "What the other balances leave"
    return [*balances, OpeningLine(role="opening", amount=debits - credits, text=text)]


def _refuse_unfit(given: _Given, on: date) -> None:
    currency = currency_now()
    for role, amount in given.amounts.items():
        if role not in DEFAULT_ACCOUNTS:
            raise ValidationError({role: say("There is no account “{role}”.", role=role)})
        if amount and role in ITEMISED:
            raise ValidationError(
                {role: say("These are entered one by one: {itemised}.", itemised=say(ITEMISED[role]))}
            )
        in_coins(amount, currency, role, above_nought=False)
    for item in given.customers:
        in_coins(item.amount, currency, "customers", above_nought=False)
        if item.on > on:
            raise ValidationError(
                {
                    "customers": say(
                        "{number} is of {on}, after the books begin.", number=item.number, on=item.on
                    )
                }
            )
    for bill in given.suppliers:
        in_coins(bill.gross, currency, "suppliers", above_nought=False)
    for held in given.deposits:
        in_coins(held.amount, currency, "deposits")
