"""A customer is erased within what has to be kept; the record says so and still adds up."""

from __future__ import annotations

from datetime import date
from io import StringIO
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, connection, models, transaction

from quotes.actions.accepting import mark_done
from quotes.actions.answers import ask
from quotes.actions.erasing import StillInHand, erase_customer
from quotes.actions.links import new_link
from quotes.models import AuditWords, Customer, ErasedRow, Erasure, Revision, StoredFile
from quotes.queries.erasure.plan import ErasurePlan, erasure_plan
from quotes.queries.record.checks import CHECKS
from quotes.queries.record.held import HELD, rows_of
from tests.books import cast
from tests.books.cast import invoiced
from tests.books.ledger_cast import marel, paid
from tests.cast import builder, desk
from tests.quotes.cast import NOW, ON, customer, draft, engine, issued

HIS = ("otten", "0199")
AFTER = date(2037, 1, 1)
"""Books of 2026 were kept until the day before."""


def faults() -> list[object]:
    return [fault for check in CHECKS for found in check.look() for fault in found]


def names_him() -> set[str]:
    """The kinds of his records in which one of his words still stands."""
    one = Customer.objects.get()
    rows: dict[str, Any] = {"customer": Customer.objects.all()}
    rows |= {name: rows_of(name, one) for name in HELD}
    found = set()
    for name, of_kind in rows.items():
        said = str([*of_kind.values()]).casefold()
        if any(word in said for word in HIS):
            found.add(name)
    told = str([*AuditWords.objects.values_list("told", flat=True)]).casefold()
    if any(word in told for word in HIS):
        found.add("the record of changes")
    return found


def offered() -> Revision:
    """A quote with its papers and a question, to which nobody has said yes; its link was sent."""
    revision = issued(draft(engine(marel(), "H4-30555"), note="Marel Otten rings on Mondays"))
    ask(revision=revision, text="Is Marel Otten's head cracked?", name="Marel Otten", now=NOW)
    new_link(quote=revision.quote, by=desk(), now=NOW)
    return revision


def settled() -> None:
    """A build done, invoiced and paid."""
    build = cast.build()
    invoice = invoiced(build)
    paid(invoice.due)
    mark_done(acceptance=build, by=builder(), now=NOW)


def erase(as_of: date = ON) -> ErasurePlan:
    return erase_customer(customer=Customer.objects.get(), by="Orla Venn", now=NOW, as_of=as_of)


@pytest.fixture
def shop(db: None) -> None:
    cast.vat_shop()


def test_of_who_never_said_yes_nothing_is_left(shop: None) -> None:
    customer()
    offered()
    plan = erase()

    assert names_him() == set()
    assert Customer.objects.get().name == f"erased customer C-{plan.customer.pk}"
    assert plan.stays == []
    assert StoredFile.objects.count() == 0
    assert faults() == []


def test_books_and_what_supports_them_stay_and_the_rest_goes(shop: None) -> None:
    settled()
    revision = offered()
    Customer.objects.update(telephone="000 555 0777")
    plan = erase()

    left = Customer.objects.get()
    assert (left.name, left.email, left.telephone) == ("Marel Otten", "marel@otten.example", "")
    assert "otten" not in str(Revision.objects.get(pk=revision.pk).sheet).casefold()
    assert {"invoice", "journalentry", "acceptance"} <= names_him()
    assert any(
        words.startswith("invoices and credit notes: 1, are books, kept until 31 December 2036")
        for words in plan.stays
    )
    assert faults() == []


def test_once_they_need_be_kept_no_longer_they_go_too(shop: None) -> None:
    settled()
    offered()
    erase()
    erase(AFTER)

    assert names_him() == set()
    assert faults() == []
    assert Erasure.objects.count() == 2


@pytest.mark.one_database
def test_a_second_time_nothing_is_left_to_do(shop: None) -> None:
    customer()
    offered()
    erase()

    assert erase().goes == []
    assert Erasure.objects.count() == 1


@pytest.mark.one_database
def test_the_list_is_the_same_before_and_after_and_asking_for_it_changes_nothing(shop: None) -> None:
    customer()
    offered()
    before = names_him()
    plan = erasure_plan(marel(), ON)

    assert (names_him(), ErasedRow.objects.count()) == (before, 0)
    done = erase()
    assert (done.goes, done.stays) == (plan.goes, plan.stays)


@pytest.mark.one_database
def test_who_is_still_in_hand_is_not_erased(shop: None) -> None:
    cast.build()

    with pytest.raises(StillInHand, match="builds that he said yes to are not done: 1"):
        erase()
    assert not Erasure.objects.exists()


def test_the_database_keeps_the_sheet_again_afterwards(shop: None) -> None:
    customer()
    revision = offered()
    erase()

    with pytest.raises(IntegrityError), transaction.atomic():
        models.QuerySet(Revision).filter(pk=revision.pk).update(sheet={})


def test_a_sheet_changed_after_it_was_erased_is_found(shop: None) -> None:
    customer()
    revision = offered()
    erase()
    with connection.cursor() as cursor:
        on = " ON quotes_revision" if connection.vendor == "postgresql" else ""
        cursor.execute(f"DROP TRIGGER quotes_revision_frozen{on}")
        cursor.execute("UPDATE quotes_revision SET sheet_sha256 = 'f' WHERE id = %s", [revision.pk])

    assert any("SHA-256 of its erased sheet" in str(fault) for fault in faults())


@pytest.mark.one_database
def test_the_command_says_what_went_and_verify_when(shop: None) -> None:
    customer()
    offered()
    whom, dry, real = marel(), StringIO(), StringIO()
    call_command("erase_customer", f"C-{whom.pk}", "--dry-run", stdout=dry)
    call_command("erase_customer", str(whom.pk), stdout=real)
    looked = StringIO()
    call_command("verify", stdout=looked)

    assert dry.getvalue() == real.getvalue()
    assert "Goes: issued revisions: 1, name and address in the sheet, its papers" in real.getvalue()
    assert f"Note: C-{whom.pk} was erased on" in looked.getvalue()


@pytest.mark.one_database
def test_a_day_to_come_is_for_looking_only(shop: None) -> None:
    customer()

    with pytest.raises(CommandError, match="still to come"):
        call_command("erase_customer", "Marel Otten", as_of=AFTER, stdout=StringIO())
