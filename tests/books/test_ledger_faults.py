"""A ledger that has been tampered with says so, one line for each fault."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest
from django.db import connection
from django.db.utils import DatabaseError, IntegrityError
from django.test.utils import CaptureQueriesContext

from quotes.models import Acceptance, Allocation, JournalLine, OpenItem
from quotes.models.frozen_triggers import let_go, thaw
from quotes.queries.books.ledger_faults import ledger_faults
from tests.books import cast
from tests.books.cast import GROSS
from tests.books.ledger_cast import billed, deposit, for_what, paid


@pytest.fixture
def traded(build: Acceptance) -> Acceptance:
    """A build invoiced and part paid, a bill, a deposit for another; nothing protects the rows any more."""
    cast.invoiced(build)
    paid("1000")
    deposit(cast.build("H4-30518"), "300")
    billed("4711", for_what("part", "100", build), tax="20")
    assert ledger_faults() == ()
    with connection.cursor() as cursor:
        for statement in (*thaw(connection.vendor), *let_go(connection.vendor)):
            cursor.execute(statement)
    return build


def change(sql: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(sql)


@pytest.mark.parametrize(
    ("sql", "said"),
    [
        (
            "UPDATE quotes_openitem SET open_amount = 5 WHERE number = 'I-2026-0001'",
            "Item I-2026-0001: 5.000 is open where its allocations leave 2186.480.",
        ),
        (
            "UPDATE quotes_allocation SET amount = 4000",
            "Item R-2026-0001: allocations leave 3000.000 of -1000.000.",
        ),
        (
            "UPDATE quotes_journalline SET debit = debit + 1 WHERE role = 'receivables' AND debit > 0",
            "Entry invoice I-2026-0001: debits 3187.480, credits 3186.480, total 3186.480.",
        ),
        (
            "UPDATE quotes_journalline SET debit = debit + 1 WHERE role = 'receivables' AND debit > 0",
            "Trial balance: debits and credits differ by 1.000.",
        ),
        (
            "UPDATE quotes_payment SET amount = 301 WHERE deposit",
            "Deposits held by invoice and by receipt come to 301.000, the account deposits_held to 300.000.",
        ),
        (
            "UPDATE quotes_supplierbill SET net = 99, gross = 119",
            "Suppliers' bills not yet paid come to 119.000, the account payables to 120.000.",
        ),
        (
            "UPDATE quotes_journalentry SET payment_id = NULL",
            "Payment R-2026-0001 is not in the journal.",
        ),
        (
            "UPDATE quotes_journalline SET role = 'work_in_progress' WHERE role = 'cost_of_parts'",
            "Build Q-2026-0001 is finally invoiced and has 100.000 in progress.",
        ),
        (
            "DELETE FROM quotes_journalline WHERE entry_id IN "
            "(SELECT id FROM quotes_journalentry WHERE number = 'R-2026-0001')",
            "Entry payment R-2026-0001: debits 0.000, credits 0.000, total 1000.000.",
        ),
        (
            "UPDATE quotes_openitem SET amount = 3000, open_amount = 2000 WHERE number = 'I-2026-0001'",
            "Customers' open items, payments that settle nothing yet among them, come to 2000.000, "
            "the account receivables to 2186.480.",
        ),
    ],
)
def test_what_was_changed_behind_the_ledgers_back_is_named(traded: Acceptance, sql: str, said: str) -> None:
    change(sql)

    assert said in ledger_faults()


def test_a_ledger_with_more_in_it_is_looked_through_in_as_many_queries(traded: Acceptance) -> None:
    few = queries()
    other = cast.build("H4-40619")
    cast.deposited(other)
    invoice = cast.invoiced(other)
    paid("500")
    cast.credited(invoice)

    assert queries() == few


def queries() -> int:
    with CaptureQueriesContext(connection) as asked:
        assert ledger_faults() == ()
    return len(asked)


@pytest.mark.parametrize("open_amount", [Decimal(-1), GROSS + 1])
def test_the_database_keeps_what_is_open_within_the_amount(build: Acceptance, open_amount: Decimal) -> None:
    cast.invoiced(build)

    with pytest.raises(IntegrityError, match="open_amount_within_amount"):
        OpenItem.objects.update(open_amount=open_amount)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda: change("UPDATE quotes_journalline SET debit = 1, credit = 0"),
        lambda: change("DELETE FROM quotes_allocation"),
        lambda: change("UPDATE quotes_payment SET amount = 1"),
    ],
)
def test_the_database_lets_nobody_change_what_was_posted(
    build: Acceptance, spoil: Callable[[], None]
) -> None:
    cast.invoiced(build)
    paid("1000")
    lines, allocations = JournalLine.objects.count(), Allocation.objects.count()

    with pytest.raises(DatabaseError):
        spoil()
    assert (lines, allocations) == (8, 1)
