"""Several who issue at the same moment, and writers killed in the middle: no gap, no double, nothing half."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable

import pytest
from django.conf import settings
from django.db import connection
from django.db.models import F, Sum

from quotes.actions.books.drafts import start_credit, start_sale
from quotes.actions.books.refused import DraftFaults, NotCreditable
from quotes.models import (
    Acceptance,
    Counter,
    Invoice,
    InvoiceDraft,
    JournalEntry,
    OpenItem,
    StoredFile,
)
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books
from tests.quotes.cast import customer
from tests.quotes.test_at_once import AT_ONCE, at_once

pytestmark = pytest.mark.django_db(transaction=True)


def sales(count: int) -> list[InvoiceDraft]:
    cast.vat_shop()
    buyer = customer()
    return [
        start_sale(customer=buyer, lines=[cast.line(f"Plugs {number}")], by=books(), now=NOW)
        for number in range(count)
    ]


def whole(issued: int) -> None:
    """Every document has all that belongs to it, and there is nothing beside them."""
    numbers = sorted(Invoice.objects.values_list("number", flat=True))
    assert numbers == [f"I-2026-{number:04}" for number in range(1, issued + 1)]
    assert Counter.objects.get(kind="I", year=2026).value == issued
    assert items_of(OpenItem.objects.values_list("invoice_id", flat=True))
    entries = JournalEntry.objects.filter(source="invoice")
    assert items_of(entries.values_list("invoice_id", flat=True))
    unequal = entries.annotate(debit=Sum("lines__debit"), credit=Sum("lines__credit"))
    assert not unequal.exclude(debit=F("credit")).exists()
    assert not unequal.filter(debit=None).exists()
    assert StoredFile.objects.filter(name__startswith="I-").count() == 2 * issued


def items_of(invoices: Iterable[int | None]) -> bool:
    """Whether these are all documents, each once."""
    return sorted(pk or 0 for pk in invoices) == sorted(Invoice.objects.values_list("pk", flat=True))


def test_people_who_issue_at_the_same_moment_leave_no_gap_and_no_double() -> None:
    drafts = sales(AT_ONCE)

    at_once(lambda number: cast.issue(InvoiceDraft.objects.get(pk=drafts[number].pk)).pk)

    whole(AT_ONCE)


def test_one_draft_issued_by_several_is_one_document() -> None:
    draft = sales(1)[0]

    issued = at_once(lambda _: cast.issue(InvoiceDraft.objects.get(pk=draft.pk)).pk)

    assert len(set(issued)) == 1
    whole(1)


def test_one_build_asked_for_in_several_drafts_at_once_is_asked_for_once() -> None:
    build = cast.build()
    payers = [customer(f"Payer {number}") for number in range(AT_ONCE)]
    drafts = [cast.drafted(build, payer=payer) for payer in payers]

    def press(number: int) -> bool:
        try:
            cast.issue(drafts[number])
        except DraftFaults:
            return False
        return True

    assert at_once(press).count(True) == 1
    whole(1)


def test_an_invoice_credited_by_several_at_once_is_credited_once() -> None:
    invoice = cast.invoiced(cast.build())

    def press(_: int) -> bool:
        try:
            cast.issue(start_credit(invoice=invoice, by=books(), now=NOW))
        except (DraftFaults, NotCreditable):
            return False
        return True

    assert True in at_once(press)
    assert Invoice.objects.get(kind="credit_note").due == cast.GROSS


def test_several_who_start_an_invoice_at_once_share_one_draft() -> None:
    build = cast.build()
    books()

    started = at_once(lambda _: cast.drafted(Acceptance.objects.get(pk=build.pk)).pk)

    assert len(set(started)) == 1


def test_writers_killed_between_number_and_commit_leave_no_gap_no_double_and_nothing_half() -> None:
    drafts = sales(60)
    name = str(connection.settings_dict["NAME"])

    killed = subprocess.run(
        [sys.executable, "-m", "tests.books.issue_and_die", name, "7"],
        capture_output=True,
        text=True,
        check=True,
        timeout=240,
        cwd=settings.BASE_DIR,
    )

    assert int(killed.stdout) >= 3
    issued = Invoice.objects.count()
    assert 0 < issued < len(drafts)
    whole(issued)
    for draft in drafts:
        cast.issue(draft)
    whole(len(drafts))
