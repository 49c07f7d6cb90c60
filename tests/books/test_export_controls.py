"""Control totals: a batch whose journal is not what its documents say offers nothing."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db import connection

from quotes.actions.books.batches import finish_batch, start_batch
from quotes.calc.books.controls import Controls, what_differs
from quotes.calc.books.export import ExportEntry, PostedLine
from quotes.models import BatchState, ExportBatch, JournalLine, OpenItem
from quotes.models.frozen_tables import FROZEN
from quotes.queries.books.batches import controls_of
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.cast import books
from tests.quotes import cast

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def workshop(db: None) -> None:
    cast.workshop()


def tamper(table: str, change: str, where: str) -> None:
    """Change an issued row behind everybody's back: the triggers are off while it is done."""
    assert table in FROZEN
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            cursor.execute(f"ALTER TABLE {table} DISABLE TRIGGER {table}_frozen")
            cursor.execute(f"UPDATE {table} SET {change} WHERE {where}")
            cursor.execute(f"ALTER TABLE {table} ENABLE TRIGGER {table}_frozen")
        else:
            cursor.execute(f"SELECT sql FROM sqlite_master WHERE name = '{table}_frozen'")
            (trigger,) = cursor.fetchone()
            cursor.execute(f"DROP TRIGGER {table}_frozen")
            cursor.execute(f"UPDATE {table} SET {change} WHERE {where}")
            cursor.execute(trigger)


def made() -> ExportBatch:
    return finish_batch(batch_id=start_batch(by=books(), now=NOW).pk)


def refused(batch: ExportBatch) -> str:
    """Why nothing is offered."""
    assert batch.state == BatchState.FAILED
    assert batch.workbook is None
    assert batch.csv is None
    return batch.failed_because


def test_all_controls_agree_over_invoices_credits_and_payments() -> None:
    invoice = posted.issued("I-2026-0001", ("100.00", "50.50"))
    posted.credited("C-2026-0001", ("50.50",), of=invoice)
    posted.issued("I-2026-0002", ("-30.00", "10.00"))
    posted.paid("R-2026-0001", "159.53")
    posted.paid("R-2026-0002", "53.53", kind="refund")

    sums = {(one.what, one.against): one.amount for one in controls_of(made())}

    assert sums["Sales before tax", "journal"] == Decimal("80.00")
    assert sums["Tax on sales", "journal"] == Decimal("4.80")
    assert sums["Sales with tax", "journal"] == Decimal("84.80")
    assert sums["Payments", "journal"] == Decimal("106.00")
    assert all(not one.apart for one in controls_of(ExportBatch.objects.get()))


def test_a_penny_of_tax_that_the_documents_do_not_have_fails_the_batch() -> None:
    posted.issued("I-2026-0001")
    line = JournalLine.objects.get(role="tax_on_sales")
    tamper("quotes_journalline", "credit = credit + 0.01", f"id = {line.pk}")

    said = refused(made())

    assert "Debits and credits: debits 159.53, credits 159.54, apart by -0.01" in said


def test_both_sides_a_penny_too_high_is_told_by_the_frozen_sheets() -> None:
    posted.issued("I-2026-0001")
    tax = JournalLine.objects.get(role="tax_on_sales")
    customer = JournalLine.objects.get(role="receivables")
    tamper("quotes_journalline", "credit = credit + 0.01", f"id = {tax.pk}")
    tamper("quotes_journalline", "debit = debit + 0.01", f"id = {customer.pk}")
    tamper("quotes_journalentry", "total = total + 0.01", "number = 'I-2026-0001'")

    batch = made()

    assert refused(batch).startswith("Tax on sales: frozen documents 9.03, journal 9.04, apart by -0.01")
    apart = {(one.what, one.against): one.apart for one in controls_of(batch) if one.apart}
    assert apart == {
        ("Tax on sales", "journal"): Decimal("-0.01"),
        ("Sales with tax", "journal"): Decimal("-0.01"),
        ("Open items", "customers' account"): Decimal("-0.01"),
    }


def test_two_faults_that_cancel_out_are_named_all_the_same() -> None:
    posted.issued("I-2026-0001")
    posted.issued("I-2026-0002")
    for number, sign in (("I-2026-0001", "+"), ("I-2026-0002", "-")):
        for role, side in (("tax_on_sales", "credit"), ("receivables", "debit")):
            line = JournalLine.objects.get(role=role, entry__number=number)
            tamper("quotes_journalline", f"{side} = {side} {sign} 0.01", f"id = {line.pk}")
        tamper("quotes_journalentry", f"total = total {sign} 0.01", f"number = '{number}'")

    said = refused(made())

    assert said == "Entries that are not those of their documents. See I-2026-0001, I-2026-0002."


def test_a_sheet_that_was_altered_after_it_was_issued_is_found() -> None:
    posted.issued("I-2026-0001")
    tamper("quotes_invoice", "sheet_sha256 = 'f'", "number = 'I-2026-0001'")

    assert refused(made()) == (
        "Documents unaltered: fingerprints that fit 0, documents 1, apart by -1. See I-2026-0001."
    )


def test_a_payment_that_is_not_what_was_posted_fails_the_batch() -> None:
    posted.paid("R-2026-0001", "20.00")
    tamper("quotes_payment", "amount = 25", "number = 'R-2026-0001'")

    assert "Payments: payments 25, journal 20, apart by 5" in refused(made())


def test_a_line_lost_since_the_batch_was_taken_fails_it() -> None:
    posted.issued("I-2026-0001")
    batch = start_batch(by=books(), now=NOW)
    other = posted.issued("I-2026-0002").entries.get()
    line = JournalLine.objects.get(role="tax_on_sales", entry__number="I-2026-0001")
    tamper("quotes_journalline", f'entry_id = {other.pk}, "order" = 9', f"id = {line.pk}")

    assert "Lines of the journal: written 2, held by the batch 3, apart by -1" in refused(
        finish_batch(batch_id=batch.pk)
    )


def test_open_items_that_are_not_the_customers_account_fail_the_batch() -> None:
    posted.issued("I-2026-0001")
    OpenItem.objects.update(amount=100, open_amount=100)

    assert "Open items: open items 100, customers' account 159.53, apart by -59.53" in refused(made())


def test_a_batch_that_failed_is_made_when_the_cause_is_mended() -> None:
    posted.paid("R-2026-0001", "20.00")
    tamper("quotes_payment", "amount = 25", "number = 'R-2026-0001'")
    failed = made()
    assert failed.state == BatchState.FAILED
    tamper("quotes_payment", "amount = 20", "number = 'R-2026-0001'")

    mended = finish_batch(batch_id=failed.pk)

    assert (mended.state, mended.failed_because, mended.number) == (BatchState.READY, "", "E-2026-0001")


def entry(*sides: tuple[str, str, str]) -> ExportEntry:
    lines = tuple(
        PostedLine(role, "1", role, Decimal(debit), Decimal(credit), "", "", None, "")
        for role, debit, credit in sides
    )
    return ExportEntry(1, ON, "other", "X-1", "", "", Decimal(10), lines)


def test_debits_that_are_not_credits_are_said_with_the_difference() -> None:
    controls = Controls(decimals=2, held=2)
    controls.add(entry(("bank", "10", "0"), ("opening", "0", "9.99")))

    assert what_differs(controls.checked(), controls.odd) == (
        "Debits and credits: debits 10, credits 9.99, apart by 0.01. See X-1."
    )


def test_a_sum_finer_than_the_currency_does_not_pass_unseen() -> None:
    """Written with two decimals 10.004 is 10.00, which is not what the entry says."""
    controls = Controls(decimals=2, held=2)
    controls.add(entry(("bank", "10.004", "0"), ("opening", "0", "10.004")))

    assert "X-1" not in what_differs(controls.checked(), controls.odd)
    fine = entry(("bank", "5.005", "0"), ("cash", "4.995", "0"), ("opening", "0", "10"))
    controls = Controls(decimals=2, held=3)
    controls.add(fine)

    assert "apart by 0.01" in what_differs(controls.checked(), controls.odd)
