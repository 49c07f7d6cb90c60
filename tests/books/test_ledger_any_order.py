"""A workshop's money in any order of events: the ledger agrees after every one of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from random import Random
from typing import Any

import pytest

from quotes.actions.books.allocating import set_off
from quotes.actions.books.bills import pay_bill, reverse_bill
from quotes.actions.books.build_costs import use_stock
from quotes.actions.books.write_off import write_off
from quotes.actions.refused import Refused
from quotes.models import Acceptance, Invoice, OpenItem, Payment, SupplierBill
from quotes.queries.books.balances import trial_balance
from quotes.queries.books.customer_account import ages, statement_of
from quotes.queries.books.ledger_faults import ledger_faults
from tests.books import cast
from tests.books.cast import NOW, ON
from tests.books.ledger_cast import billed, bounced, deposit, for_what, marel, paid, paid_back
from tests.cast import books, owner

EVENTS = 40


def one(dice: Random, rows: Any) -> Any:
    """Any of the rows; Refused where there is none, as for everything that can't be done just now."""
    found = list(rows)
    if not found:
        raise Refused
    return dice.choice(found)


def some(dice: Random, most: Decimal) -> Decimal:
    """A sum up to that, in coins."""
    return Decimal(dice.randint(1, max(int(most * 100), 1))) / 100


def pay_back(build: Acceptance, dice: Random) -> None:
    item = one(dice, OpenItem.objects.owed_by_us())
    paid_back(some(dice, -item.open_amount), from_item=item)


def give_up(build: Acceptance, dice: Random) -> None:
    item = one(dice, OpenItem.objects.owed_to_us())
    write_off(item=item, amount=some(dice, item.open_amount), reason="Gone", on=ON, by=owner(), now=NOW)


def settle_bill(build: Acceptance, dice: Random) -> None:
    pay_bill(bill=one(dice, SupplierBill.objects.unpaid()), on=ON, method="cash", by=books(), now=NOW)


def take_bill_back(build: Acceptance, dice: Random) -> None:
    reverse_bill(bill=one(dice, SupplierBill.objects.all()), on=ON, by=books(), now=NOW, note="Wrong")


def from_stock(build: Acceptance, dice: Random) -> None:
    use_stock(
        build=build,
        description="Seals",
        component="",
        quantity=Decimal(1),
        cost=some(dice, Decimal(50)),
        on=ON,
        by=books(),
        now=NOW,
    )


def enter(build: Acceptance, dice: Random) -> None:
    kinds = ("part", "machine_work", "freight")
    lines = (for_what(dice.choice(kinds), f"{some(dice, Decimal(300))}", build), for_what("overhead", "9"))
    billed(f"{dice.random()}", *lines, tax="1.23")


HAPPENINGS: Mapping[str, Callable[[Acceptance, Random], object]] = {
    "deposit invoice": lambda build, dice: cast.deposited(build),
    "deposit by receipt": lambda build, dice: deposit(build, f"{some(dice, Decimal(500))}"),
    "deposit back": lambda build, dice: paid_back(some(dice, Decimal(500)), deposit_of=build),
    "labour invoiced": lambda build, dice: cast.invoiced(build, kinds=["labour"]),
    "rest invoiced": lambda build, dice: cast.invoiced(build),
    "credited": lambda build, dice: cast.credited(one(dice, Invoice.objects.exclude(kind="credit_note"))),
    "paid": lambda build, dice: paid(some(dice, Decimal(2000))),
    "paid on account": lambda build, dice: paid(some(dice, Decimal(200)), allocate={}),
    "taken back": lambda build, dice: bounced(one(dice, Payment.objects.exclude(kind="reversal"))),
    "paid back": pay_back,
    "set off": lambda build, dice: set_off(customer=marel(), on=ON, by=books(), now=NOW),
    "given up": give_up,
    "bill": enter,
    "bill paid": settle_bill,
    "bill taken back": take_bill_back,
    "stock": from_stock,
}


@pytest.mark.parametrize("seed", range(3))
def test_the_ledger_agrees_after_every_event(build: Acceptance, seed: int) -> None:
    dice = Random(seed)
    done = []
    for _ in range(EVENTS):
        name = dice.choice(sorted(HAPPENINGS))
        try:
            HAPPENINGS[name](build, dice)
        except Refused:
            continue
        done.append(name)
        assert ledger_faults() == (), done
    assert len(set(done)) > len(HAPPENINGS) / 2

    receivables = trial_balance(ON).balance_of("receivables")
    assert ages(ON).total.total == receivables == statement_of(marel(), ON, ON).closing
