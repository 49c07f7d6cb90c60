"""Payments: what each does to the customer's account and to the books."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quotes.actions.books.opening import enter_opening
from quotes.actions.books.opening_rows import OpeningItem
from quotes.actions.books.refused import KeyTaken, NotAllocatable
from quotes.models import Acceptance, Allocation, Invoice, JournalEntry, Payment
from tests.books import cast
from tests.books.cast import GROSS, NOW, ON
from tests.books.ledger_cast import balance, marel, on_items, paid, still_open
from tests.cast import books

pytestmark = pytest.mark.usefixtures("sound_ledger")


@pytest.fixture
def invoice(build: Acceptance) -> Invoice:
    return cast.invoiced(build)


@pytest.fixture
def second(invoice: Invoice) -> Invoice:
    """Another build of the same customer, invoiced and due a week later."""
    return cast.invoiced(cast.build("H4-30518"), now=NOW + timedelta(days=7))


def test_a_payment_in_full_closes_the_invoice(invoice: Invoice) -> None:
    payment = paid(GROSS)

    assert (still_open(invoice), still_open(payment)) == (0, 0)
    assert (balance("receivables"), balance("bank")) == (0, GROSS)


def test_a_part_payment_leaves_the_rest_open(invoice: Invoice) -> None:
    paid("1000")

    assert still_open(invoice) == GROSS - 1000


def test_payments_are_numbered_in_a_series_of_their_own(invoice: Invoice) -> None:
    assert [paid("1").number, paid("1").number] == ["R-2026-0001", "R-2026-0002"]


def test_what_is_too_much_stays_in_credit_on_the_account(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)

    assert (still_open(invoice), still_open(payment)) == (0, -20)
    assert balance("receivables") == -20


def test_unsaid_it_settles_the_oldest_due_first(invoice: Invoice, second: Invoice) -> None:
    paid(GROSS + 100, now=NOW + timedelta(days=8))

    assert (still_open(invoice), still_open(second)) == (0, GROSS - 100)


def test_said_it_settles_what_it_was_meant_for(invoice: Invoice, second: Invoice) -> None:
    payment = paid("300", allocate=on_items(I_2026_0002="200", I_2026_0001="60"))

    assert (still_open(invoice), still_open(second)) == (GROSS - 60, GROSS - 200)
    assert still_open(payment) == -40


def test_meant_for_nothing_it_stays_in_credit(invoice: Invoice) -> None:
    assert still_open(paid("300", allocate={})) == -300
    assert still_open(invoice) == GROSS


@pytest.mark.parametrize("share", ["0.01", "-5", "9999"])
def test_no_more_is_settled_than_is_open_and_was_paid(invoice: Invoice, share: str) -> None:
    paid(GROSS)

    with pytest.raises(NotAllocatable):
        paid("100", allocate=on_items(I_2026_0001=share))
    assert Payment.objects.count() == 1


def test_no_more_is_settled_than_the_payment_has(invoice: Invoice, second: Invoice) -> None:
    with pytest.raises(NotAllocatable, match="with a payment of 100"):
        paid("100", allocate=on_items(I_2026_0001="60", I_2026_0002="60"))


def test_one_customers_money_settles_nothing_of_anothers(invoice: Invoice) -> None:
    with pytest.raises(NotAllocatable, match="two customers"):
        paid("100", customer=cast.other_payer(), allocate=on_items(I_2026_0001="100"))


def test_a_refused_payment_uses_no_number(invoice: Invoice) -> None:
    with pytest.raises(NotAllocatable):
        paid("1", allocate=on_items(I_2026_0001="2"))

    assert paid("1").number == "R-2026-0001"


def test_the_same_form_pressed_twice_takes_one_payment(invoice: Invoice) -> None:
    first, again = paid("100", key="form"), paid("100", key="form")

    assert first == again
    assert (Payment.objects.count(), JournalEntry.objects.filter(source="payment").count()) == (1, 1)
    assert still_open(invoice) == GROSS - 100


@pytest.mark.parametrize("change", [{"amount": Decimal(101)}, {"method": "cash"}])
def test_a_form_that_says_something_else_the_second_time_is_refused(
    invoice: Invoice, change: dict[str, Any]
) -> None:
    paid("100", key="form")

    with pytest.raises(KeyTaken, match="R-2026-0001"):
        paid(**({"amount": "100", "key": "form"} | change))


def test_a_payment_before_any_invoice_waits_for_it(build: Acceptance) -> None:
    payment = paid("100", customer=marel())

    assert (still_open(payment), balance("receivables")) == (-100, -100)


def test_an_allocation_is_not_older_than_what_it_settles(invoice: Invoice) -> None:
    paid("100", on=ON - timedelta(days=3), allocate=on_items(I_2026_0001="100"))

    assert Allocation.objects.get().on == ON


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("amount", {"amount": "0"}),
        ("amount", {"amount": "-5"}),
        ("amount", {"amount": "1.005"}),
        ("amount", {"amount": "NaN"}),
        ("amount", {"amount": "10000000"}),
        ("method", {"method": "barter"}),
        ("on", {"on": ON + timedelta(days=1)}),
        ("note", {"note": "a\x00b"}),
        ("reference", {"reference": "x" * 141}),
        ("key", {"key": " "}),
        ("build", {"deposit": True}),
    ],
)
def test_what_cannot_be_kept_is_refused_at_its_field(
    invoice: Invoice, field: str, change: dict[str, Any]
) -> None:
    with pytest.raises(ValidationError) as refused:
        paid(**({"amount": "5"} | change))

    assert list(refused.value.message_dict) == [field]
    assert not Payment.objects.exists()


def test_the_entry_points_at_its_payment(invoice: Invoice) -> None:
    payment = paid("100", method="card")

    entry = JournalEntry.objects.get(payment=payment)
    assert (entry.number, entry.party, entry.text) == (payment.number, "Marel Otten", "Payment R-2026-0001")
    assert balance("card") == 100


def test_a_payment_takes_as_many_queries_however_long_the_account_is(build: Acceptance) -> None:
    counts = []
    paid("5")  # the first of the year makes its counter
    for day, items in ((2, 1), (1, 20)):
        begun(day, items)
        with CaptureQueriesContext(connection) as queries:
            paid("5")
        counts.append(len(queries))

    assert counts[0] == counts[1] <= 44


def begun(days_ago: int, items: int) -> None:
    """Opening balances with so many items of 10 each."""
    on = ON - timedelta(days=days_ago)
    customers = [OpeningItem(marel(), f"{days_ago}/{number}", on, on, Decimal(10)) for number in range(items)]
    enter_opening(on=on, amounts={}, customers=customers, by=books(), now=NOW)
