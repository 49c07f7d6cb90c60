"""Several people at the ledger at the same moment: no sum is taken twice, none passes its bounds."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal
from threading import Barrier, Event
from time import sleep
from typing import TypeVar
from uuid import uuid4

import pytest
from django.db import connection, transaction

from quotes.actions.books.allocating import allocate
from quotes.actions.books.journal import pass_the_gate
from quotes.actions.books.months import lock_month
from quotes.actions.books.numbers import series_number
from quotes.actions.books.refused import BillEnteredAlready, NotAllocatable, NothingToPayBack
from quotes.actions.books.refused_months import MonthClosed
from quotes.actions.books.write_off import write_off
from quotes.actions.refused import Refused
from quotes.models import (
    Acceptance,
    Allocation,
    Counter,
    MonthLock,
    Payment,
    SupplierBill,
)
from quotes.queries.books.deposits import deposits_held
from quotes.queries.books.ledger_faults import ledger_faults
from tests.books import cast
from tests.books.cast import GROSS, LATER, NOW, ON
from tests.books.ledger_cast import billed, bounced, deposit, item_of, marel, paid, paid_back, still_open
from tests.cast import books, desk, owner

AT_ONCE = 4
Result = TypeVar("Result")

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def build() -> Acceptance:
    """A build in a workshop that every connection sees; everybody has been made."""
    desk(), books(), owner()
    return cast.build()


def at_once(press: Callable[[int], Result], refused: type[Exception]) -> list[Result]:
    """What those of the threads got that were not refused."""
    together = Barrier(AT_ONCE)

    def one(number: int) -> Result | None:
        try:
            connection.ensure_connection()
            together.wait(30)
            return press(number)
        except refused:
            return None
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return [result for result in pool.map(one, range(AT_ONCE)) if result is not None]


def test_one_form_pressed_by_several_takes_one_payment(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    taken = at_once(lambda _: paid("100", key="form").pk, Refused)

    assert len(taken) == AT_ONCE
    assert len(set(taken)) == 1
    assert (Payment.objects.count(), Counter.objects.get(kind="R").value) == (1, 1)
    assert still_open(invoice) == GROSS - 100
    assert ledger_faults() == ()


def test_several_payments_on_one_invoice_settle_no_more_than_it_has(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    at_once(lambda _: paid("1000").pk, Refused)

    assert still_open(invoice) == 0
    assert sum(still_open(payment) for payment in Payment.objects.all()) == GROSS - 4000
    assert ledger_faults() == ()


def test_one_credit_is_allocated_no_further_than_it_goes(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    payment = paid("100", allocate={})

    def press(_: int) -> int:
        share = Decimal(60)
        credit, debit = item_of(payment), item_of(invoice)
        return allocate(credit=credit, debit=debit, amount=share, on=ON, by=desk(), now=NOW).pk

    assert len(at_once(press, NotAllocatable)) == 1
    assert still_open(payment) == -40
    assert Allocation.objects.count() == 1


def test_one_credit_is_paid_back_once(build: Acceptance) -> None:
    credit = item_of(paid("100", customer=marel()))

    assert len(at_once(lambda _: paid_back("100", from_item=credit).pk, NothingToPayBack)) == 1
    assert Payment.objects.filter(kind="refund").count() == 1
    assert ledger_faults() == ()


def test_one_deposit_is_paid_back_once(build: Acceptance) -> None:
    deposit(build, "100")

    assert len(at_once(lambda _: paid_back("100", deposit_of=build).pk, NothingToPayBack)) == 1
    assert ledger_faults() == ()


def test_one_cheque_bounces_once(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    cheque = paid("100", method="cheque")

    assert len(set(at_once(lambda _: bounced(cheque).pk, Refused))) == 1
    assert still_open(invoice) == GROSS
    assert ledger_faults() == ()


def test_one_item_is_written_off_once(build: Acceptance) -> None:
    item = item_of(cast.invoiced(build))

    def press(_: int) -> int:
        return write_off(item=item, amount=GROSS, reason="Gone", on=ON, by=owner(), now=NOW).pk

    assert len(at_once(press, NotAllocatable)) == 1
    assert ledger_faults() == ()


def test_one_bill_is_entered_once(build: Acceptance) -> None:
    assert len(at_once(lambda _: billed("4711").pk, BillEnteredAlready)) == 1
    assert (SupplierBill.objects.count(), Counter.objects.get(kind="S").value) == (1, 1)


def test_payments_and_bounces_in_any_order_wait_for_each_other(build: Acceptance) -> None:
    cast.invoiced(build)
    cheques = [paid("100", method="cheque") for _ in range(2)]

    def press(number: int) -> int:
        return bounced(cheques[number]).pk if number < 2 else paid("1000").pk

    assert len(at_once(press, Refused)) == AT_ONCE
    assert ledger_faults() == ()


DOCUMENTS = [lambda: paid("5", customer=marel()), lambda: billed(uuid4().hex)]


@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize("is_first", [True, False])
def test_a_month_is_not_closed_while_a_document_is_on_its_way_into_it(
    build: Acceptance, document: Callable[[], object], is_first: bool
) -> None:
    if not is_first:
        document()
    order: list[str] = []
    posted = Event()

    def post_slowly() -> None:
        with transaction.atomic():
            document()
            posted.set()
            sleep(0.5)
            order.append("document")

    def close() -> None:
        posted.wait(30)
        lock_month(month=ON, by=books(), now=LATER)
        order.append("month")

    in_threads(post_slowly, close)

    assert order == ["document", "month"]
    with pytest.raises(MonthClosed):
        document()


def test_who_closes_a_month_and_who_enters_a_bill_do_not_wait_for_each_other(build: Acceptance) -> None:
    billed("0")
    numbered = Event()

    def enter() -> None:
        with transaction.atomic():
            series_number(kind="S", on=ON)
            numbered.set()
            sleep(0.3)
            pass_the_gate()

    def close() -> None:
        numbered.wait(30)
        lock_month(month=ON, by=books(), now=LATER)

    in_threads(enter, close)

    assert MonthLock.objects.holds(ON)


def test_a_deposit_is_either_paid_back_or_taken_off(build: Acceptance) -> None:
    deposit(build, "100")
    draft = cast.drafted(build)

    def press(number: int) -> str:
        return paid_back("100", deposit_of=build).kind if number % 2 else cast.issue(draft).kind

    assert len(set(at_once(press, Refused))) == 1
    assert deposits_held(ON) == []
    assert ledger_faults() == ()


def in_threads(*each: Callable[[], None]) -> None:
    def closing(one: Callable[[], None]) -> None:
        try:
            one()
        finally:
            connection.close()

    with ThreadPoolExecutor(len(each)) as pool:
        list(pool.map(closing, each))
