"""A few builds of the demo's year, written as the demo writes them: the books that come of it are sound."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from io import StringIO
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.core.management import call_command
from django.db import transaction
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from quotes.actions.books import drawing
from quotes.actions.books.batches import NothingToExport, start_batch
from quotes.actions.demo.writing import write_demo
from quotes.calc.demo.year import Year, YearTold
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.einvoice_check import findings
from quotes.imports.demo.file import read_demo, read_year
from quotes.models import CalledOff, ExportBatch, Invoice, JournalEntry, ServiceOutcome
from quotes.queries.books.balances import trial_balance
from quotes.queries.books.deposits import deposits_held
from quotes.queries.books.ledger_faults import ledger_faults
from tests.cast import PASSWORD, books
from tests.shipped import load_shipped

DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo"
# At most three of them with hours: all are of the same days, and one person works on them.
COURSES = ("deposit_back", "two_payers", "extra", "reissued")

# The same actions are tested on both databases; here is looked at what they come to together.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


def xml_alone(sheet: InvoiceSheet) -> SimpleNamespace:
    """The e-invoice as it is issued, beside a PDF that nobody draws."""
    return SimpleNamespace(pdf=f"%PDF {sheet.number}".encode(), xml=cii_xml(sheet))


def few(year: Year) -> Year:
    """One build for each course, all alike, so that one comparison serves them."""
    one = next(build for build in year.builds if build.type == "single450")
    other = year.customers[1].name
    builds = [
        one.model_copy(update={"course": course, "engine": f"S1-{number}", "second": other})
        for number, course in enumerate(COURSES)
    ]
    told = YearTold(engine=f"S1-{COURSES.index('reissued')}", end="stopped", ran=Decimal(12), days=200)
    gone = YearTold(engine="S1-999", end="ran", ran=Decimal(25), days=200)
    return year.model_copy(update={"builds": tuple(builds), "told": (told, gone)})


@pytest.fixture(scope="module", autouse=True)
def written(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    whole = read_demo(DEMO, "value-added-tax")
    # In the currency of the prices that ship, which saves converting them.
    shop = {**whole.workshop, "currency": "USD"}
    demo = whole.model_copy(update={"workshop": shop, "customers": (), "quotes": (), "enquiries": ()})
    with django_db_blocker.unblock(), transaction.atomic(), pytest.MonkeyPatch.context() as patched:
        patched.setattr(drawing, "drawn", xml_alone)
        load_shipped()
        write_demo(
            demo=demo,
            style="value-added-tax",
            password=PASSWORD,
            now=timezone.now(),
            year=few(read_year(DEMO)),
        )
        yield
        transaction.set_rollback(True)


def test_the_published_rules_find_nothing_in_its_documents() -> None:
    issued = Invoice.objects.select_related("xml").order_by("pk")
    kinds = {row.kind for row in issued}
    assert kinds == {"deposit_invoice", "invoice", "credit_note"}

    for row in issued:
        assert row.xml is not None
        assert findings(bytes(row.xml.content)) == (), row.number


def test_the_ledger_agrees_with_itself_and_balances() -> None:
    balance = trial_balance(timezone.localdate())

    assert ledger_faults() == ()
    assert balance.difference == 0
    assert balance.debits > 0


def test_the_whole_record_is_sound() -> None:
    call_command("verify", stdout=(said := StringIO()))

    assert said.getvalue().splitlines()[-1].startswith("Sound: ")


def test_what_was_handed_over_is_not_handed_over_again() -> None:
    assert ExportBatch.objects.get().entries_held == JournalEntry.objects.count() > 0

    with pytest.raises(NothingToExport):
        start_batch(by=books(), now=timezone.now())


def test_a_build_that_was_called_off_holds_nothing_of_its_customers() -> None:
    off = CalledOff.objects.get()

    assert not [held for held in deposits_held(timezone.localdate()) if held.build_id == off.build_id]


def test_what_is_told_of_a_service_counts_with_what_was_promised() -> None:
    """Of an engine that is not among these builds nothing is told."""
    row = ServiceOutcome.objects.get()
    assert (row.get_end_display(), row.ran, row.planned) == ("it stopped", Decimal(12), Decimal(25))
    assert row.on == timezone.localdate() - timedelta(days=200)
    assert 0 < row.wear_hazard < 0.5
