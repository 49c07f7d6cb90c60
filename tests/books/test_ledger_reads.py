"""What is read from the ledger: balances, ages and statements as of a day, deposits, margins."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quotes.actions.books.opening import enter_opening
from quotes.actions.books.opening_rows import OpeningItem
from quotes.actions.books.worked_hours import enter_hours
from quotes.models import Acceptance, Invoice
from quotes.queries.books.balances import trial_balance
from quotes.queries.books.customer_account import ages, open_items, overdue_items, statement_of
from quotes.queries.books.deposits import deposits_held
from quotes.queries.books.ledger_faults import ledger_faults
from quotes.queries.books.margins import margins
from tests.books import cast
from tests.books.cast import GROSS, NET, NOW, ON
from tests.books.ledger_cast import billed, bounced, deposit, for_what, marel, paid, paid_back
from tests.cast import books, builder

pytestmark = pytest.mark.usefixtures("sound_ledger")

DAY = timedelta(days=1)
LATER = NOW + 40 * DAY


@pytest.fixture
def invoice(build: Acceptance) -> Invoice:
    """Due at once, on 25 November 2026."""
    return cast.invoiced(build)


def test_the_trial_balance_is_nought_on_every_day(invoice: Invoice, build: Acceptance) -> None:
    deposit(cast.build("H4-30518"), "300", on=ON - 3 * DAY)
    cheque = paid("1000", on=ON + 2 * DAY, now=LATER, method="cheque")
    billed("4711", for_what("part", "100", build), tax="20", on=ON + 4 * DAY, now=LATER)
    bounced(cheque, on=ON + 9 * DAY, now=LATER)

    for past in range(-5, 15):
        assert trial_balance(ON + past * DAY).difference == 0
    assert trial_balance(ON - 4 * DAY).rows == ()
    assert trial_balance(ON + 2 * DAY).balance_of("receivables") == GROSS - 1000
    assert trial_balance(ON + 9 * DAY).balance_of("receivables") == GROSS


@pytest.mark.both_databases
def test_the_accounts_of_the_trial_balance_are_in_order_of_their_codes(invoice: Invoice) -> None:
    codes = [row.code for row in trial_balance(ON).rows]

    assert codes == sorted(codes)
    assert "1100" in codes


def test_a_payment_of_today_leaves_the_list_of_yesterday_as_it_was(invoice: Invoice) -> None:
    paid("1000", on=ON + 20 * DAY, now=LATER)

    assert ages(ON + 19 * DAY).total.to_30 == GROSS
    assert ages(ON + 20 * DAY).total.to_30 == GROSS - 1000
    assert ages(ON + 31 * DAY).total.to_60 == GROSS - 1000
    assert ages(ON - DAY).rows == ()


def test_the_list_by_age_adds_up_to_the_account(invoice: Invoice) -> None:
    paid(GROSS + 20, on=ON + DAY, now=LATER)

    for past in range(3):
        day = ON + past * DAY
        assert ages(day).total.total == trial_balance(day).balance_of("receivables")


def test_a_statement_runs_from_balance_to_balance(invoice: Invoice) -> None:
    cheque = paid("1000", on=ON + 2 * DAY, now=LATER, method="cheque")
    bounced(cheque, on=ON + 5 * DAY, now=LATER)

    found = statement_of(marel(), ON + DAY, ON + 30 * DAY)

    assert found.opening == found.closing == found.overdue == GROSS
    assert [(line.kind, line.number) for line in found.lines] == [
        ("Payment", "R-2026-0001"),
        ("R-2026-0001 taken back", "R-2026-0002"),
    ]
    assert [each.number for each in found.still_open] == ["I-2026-0001"]


def test_a_statement_names_deposits_beside_the_balance(build: Acceptance) -> None:
    deposit(build, "300")
    deposit(cast.build("H4-30518"), "200")
    paid_back("50", deposit_of=build)

    found = statement_of(marel(), ON, ON)

    assert (found.lines, found.deposits_held) == ((), Decimal(450))


def test_deposits_are_held_until_the_day_they_are_invoiced(build: Acceptance) -> None:
    asked = cast.deposited(build)
    cast.invoiced(build, now=NOW + 10 * DAY)

    assert [held.amount for held in deposits_held(ON + 9 * DAY)] == [asked.net]
    assert deposits_held(ON + 10 * DAY) == []


def test_open_items_are_said_the_oldest_due_first(invoice: Invoice) -> None:
    cast.invoiced(cast.build("H4-30518"), now=NOW + 3 * DAY)

    assert [item.number for item in open_items()] == ["I-2026-0001", "I-2026-0002"]
    assert [item.number for item in overdue_items(ON + 3 * DAY)] == ["I-2026-0001"]
    assert not open_items(customer=cast.other_payer())


def worked(build: Acceptance, hours: str) -> None:
    enter_hours(
        build=build,
        operation="head_on",
        person=builder(),
        on=ON,
        hours=Decimal(hours),
        by=builder(),
        now=NOW,
    )


def test_the_margin_sets_what_was_quoted_against_what_it_took(build: Acceptance) -> None:
    cast.keep_settings(labour_cost_an_hour=Decimal(40))
    billed("4711", for_what("part", "500", build), for_what("machine_work", "60", build), tax="112")
    worked(build, "10")
    worked(build, "6.5")
    option = cast.comparison().option("mild")
    cast.invoiced(build)

    found = margins()

    row = found.builds[0]
    costs = {kind: sum(line.cost or 0 for line in option.lines if line.kind == kind) for kind in KINDS}
    assert (row.name, row.tier, row.engine_type) == ("Q-2026-0001", "Mild build", "600 inline four")
    assert (row.hours.quoted, row.hours.actual) == (build.hours, Decimal("16.5"))
    assert (row.parts.quoted, row.parts.actual) == (costs["part"], Decimal(500))
    assert (row.machine_work.quoted, row.machine_work.actual) == (costs["machine_work"], Decimal(60))
    assert (row.invoiced, row.cost) == (NET, Decimal(500 + 60 + 660))
    assert found.total.margin == row.margin == NET - 1220


KINDS = ("part", "machine_work")


def test_extra_work_adds_its_hours_and_credit_takes_off_what_was_invoiced(build: Acceptance) -> None:
    cast.extra_work(build)
    invoice = cast.invoiced(build)
    cast.credited(invoice, {1: "1"})

    row = margins().builds[0]

    assert row.hours.quoted == build.hours + Decimal("1.5")
    assert row.invoiced == NET + 485 - 110


def test_a_deposit_invoice_is_not_turnover(build: Acceptance) -> None:
    cast.deposited(build)
    assert margins().builds == ()

    cast.invoiced(build)

    assert margins().total.invoiced == NET


def test_a_period_shows_the_builds_invoiced_in_it(invoice: Invoice) -> None:
    assert len(margins(ON, ON).builds) == 1
    assert margins(ON + DAY, None).builds == ()
    assert margins(None, ON - DAY).builds == ()


READS: dict[str, Callable[[], Any]] = {
    "trial balance": lambda: trial_balance(ON),
    "ages": lambda: ages(ON),
    "statement": lambda: statement_of(marel(), ON, ON),
    "deposits": lambda: deposits_held(ON),
    "open items": lambda: [str(item) + item.customer.name for item in open_items()],
    "margins": margins,
    "faults": ledger_faults,
}


def test_every_read_takes_as_many_queries_for_many_rows_as_for_few(build: Acceptance) -> None:
    grown(build, ON - 2 * DAY, 1)
    few = {name: queries_of(read) for name, read in READS.items()}
    for number in range(4):
        grown(cast.build(f"H4-{number}"), ON, 0)
    grown(cast.build("H4-99"), ON - DAY, 19)

    assert {name: queries_of(read) for name, read in READS.items()} == few
    assert max(few.values()) <= 16


def grown(build: Acceptance, on: date, items: int) -> None:
    """A build with a bill and an invoice, and opening balances of so many items."""
    billed(str(build.pk), for_what("part", "10", build), tax="2")
    cast.invoiced(build, kinds=["labour"])
    if items:
        given = [OpeningItem(marel(), f"{on} {number}", on, on, Decimal(10)) for number in range(items)]
        enter_opening(on=on, amounts={}, customers=given, by=books(), now=NOW)


def queries_of(read: Callable[[], Any]) -> int:
    with CaptureQueriesContext(connection) as queries:
        read()
    return len(queries)
