"""What the day sheets say about money: the books' own, the desk's and the owner's."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.actions.accepting import mark_done
from quotes.models import Acceptance, OpenItem
from tests.books import cast
from tests.books.books_pages import ago, bill, browser, day, invoiced
from tests.books.ledger_cast import deposit, paid
from tests.books.page_forms import text_of
from tests.cast import builder


def sheet(role: str, name: str = "home") -> str:
    return text_of(browser(role).get(reverse(name)))  # type: ignore[arg-type]


def done(build: Acceptance, days: int = 1) -> Acceptance:
    return mark_done(acceptance=build, by=builder(), now=ago(days))


@pytest.mark.parametrize(("role", "name"), [("books", "books-home"), ("books", "home"), ("owner", "home")])
def test_what_is_overdue_and_what_is_to_be_paid_stand_on_the_day_sheet(
    build: Acceptance, role: str, name: str
) -> None:
    invoiced(build, days=60)
    bill(due=1)

    page = sheet(role, name)

    assert "Ask for the money: 1 document is overdue 3,186.48" in page
    assert "Pay: 1 bill is due within the week, or overdue 494.40" in page
    assert "not handed to the accounts yet" in page


def test_a_workshop_with_value_added_tax_is_asked_for_its_account_number(build: Acceptance) -> None:
    cast.keep_settings(country="IE", iban="")

    assert "Set up the books: your IBAN not given" in sheet("books", "books-home")


def test_a_workshop_with_sales_tax_is_not(db: None) -> None:
    cast.sales_tax_shop()
    cast.keep_settings(country="US", iban="")

    assert "not given" not in sheet("books", "books-home")


def test_a_bill_that_is_not_due_within_the_week_is_not_said(build: Acceptance) -> None:
    bill(due=-8)

    assert "Pay:" not in sheet("books", "books-home")


@pytest.mark.parametrize(("role", "name"), [("books", "books-home"), ("desk", "home"), ("owner", "home")])
def test_a_build_that_is_done_waits_to_be_invoiced(build: Acceptance, role: str, name: str) -> None:
    done(build)
    assert "Invoice Q-2026-0001" in sheet(role, name)

    invoiced(build)
    assert "Invoice Q-2026-0001" not in sheet(role, name)


def test_a_build_whose_invoice_was_taken_back_waits_again(build: Acceptance) -> None:
    done(build)
    cast.credited(invoiced(build, days=0))

    assert "Invoice Q-2026-0001" in sheet("books", "books-home")


def test_the_desk_asks_for_a_deposit_until_it_is_asked_for_or_held(build: Acceptance) -> None:
    other = cast.build("H4-2")
    assert "deposit on Q-2026-0001" in sheet("desk")

    asked = cast.deposited(build)
    deposit(other, "100")

    page = sheet("desk")
    assert "deposit on Q-2026" not in page
    assert f"Deposit of Marel Otten on {asked.number}" in page


def test_a_deposit_that_is_paid_waits_on_nobody(build: Acceptance) -> None:
    asked = cast.deposited(build)
    paid(asked.due, allocate={asked.item.pk: asked.due})

    assert f"on {asked.number}" not in sheet("desk")


def test_an_engine_that_is_paid_may_leave_and_not_before(build: Acceptance) -> None:
    done(build)
    invoice = invoiced(build, days=0)
    assert "May leave" not in sheet("desk")

    item = OpenItem.objects.get(invoice=invoice)
    paid(Decimal(100), on=day(), now=ago(0), allocate={item.pk: Decimal(100)})
    assert "May leave" not in sheet("desk")

    left = item.open_amount - 100
    paid(left, on=day(), now=ago(0), allocate={item.pk: left})

    assert "May leave: Q-2026-0001 of Marel Otten, done and paid" in sheet("desk")


def test_the_month_that_is_over_is_to_be_closed(build: Acceptance) -> None:
    bill(days=day().day)

    assert f"Close {day(day().day):%B %Y}: it is over and still open" in sheet("books", "books-home")


def test_the_month_that_runs_is_not_to_be_closed(build: Acceptance) -> None:
    bill(days=0)

    assert "Close" not in sheet("books", "books-home")
    assert "not over yet" in sheet("books", "months")


def test_a_ledger_that_does_not_agree_with_itself_is_said(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    from quotes.views.books import home

    assert reverse("books-agree") in browser("books").get(reverse("books-home")).content.decode()
    assert "The ledger agrees with itself" in sheet("books", "books-agree")
    monkeypatch.setattr(home, "ledger_faults", lambda: ("Item I-2026-0001: 5 is open.",))

    page = sheet("books", "books-agree")

    assert "Export nothing before it does. Item I-2026-0001: 5 is open." in page
    assert "The ledger agrees" not in page


def test_one_build_and_five_cost_desk_and_owner_the_same_queries(
    build: Acceptance, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    clients = {browser("desk"): 38, browser("owner"): 58}
    every(build, "A")
    for client in clients:
        client.get(reverse("home"))  # reads the catalogue, which is kept
    for client, cost in clients.items():
        with django_assert_num_queries(cost):
            client.get(reverse("home"))
    for index in range(4):
        every(cast.build(f"B-{index}"), f"C-{index}")
    for client in clients:
        client.get(reverse("home"))  # reads the options accepted, which are kept
    for client, cost in clients.items():
        with django_assert_num_queries(cost):
            client.get(reverse("home"))


def every(build: Acceptance, mark: str) -> None:
    """A build of each sort: waiting for its invoice, for its deposit to be paid, for it to be asked for."""
    done(build)
    cast.deposited(cast.build(f"D-{mark}"))
    cast.build(f"E-{mark}")
