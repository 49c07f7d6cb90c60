"""The deposit of a strip-down: held, taken off the build's invoice, or off that of the strip-down on a no."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.actions.bench.declining import NoSaid, decline_job, send_back
from quotes.actions.bench.jobs import tie_quote
from quotes.actions.bench.refused import AlreadyDeclined, NotDeclined, WasSaidYes
from quotes.actions.books.paying_back import refund
from quotes.actions.books.payments import take_payment
from quotes.actions.books.refused import DraftFaults, NothingToPayBack
from quotes.actions.books.reversing import reverse_payment
from quotes.models import Engine, InvoiceDraft, Job, JournalLine, Payment, TeardownDeclined
from quotes.queries.books.build import build_account
from quotes.queries.books.deposits import deposits_held, held_of
from quotes.queries.books.ledger_faults import ledger_faults
from quotes.queries.books.sheets import content_of, draft_sheet
from tests.bench.cast import NOW, ON, built_job, job, leave, stripped_job
from tests.books.cast import build, drafted, issue
from tests.cast import books, desk

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def sound(db: None) -> Any:
    """Whatever the test does, the ledger agrees with its documents when it ends."""
    yield
    assert ledger_faults() == ()


def paid(of: Job, amount: str = "470", **change: Any) -> Payment:
    fields: dict[str, Any] = {
        "customer": of.customer,
        "on": ON,
        "amount": Decimal(amount),
        "method": "card",
        "key": f"teardown {of.pk}",
        "by": desk(),
        "now": NOW,
        "job": of,
        "deposit": True,
    }
    return take_payment(**(fields | change))


def no(of: Job, outcome: str = "in_boxes") -> TeardownDeclined:
    said = NoSaid(outcome, "Marel Otten", "message", words="Too dear for this season")
    return decline_job(job=of, said=said, by=desk(), now=NOW)


def stripped_without_quote(engine: Engine | None = None) -> Job:
    return stripped_job(job(engine=engine))


def test_a_deposit_for_a_strip_down_is_a_liability_and_settles_nothing() -> None:
    payment = paid(job())
    line = JournalLine.objects.get(entry__payment=payment, role="deposits_held")
    assert line.credit == 470
    assert [(held.quote, held.customer, held.amount) for held in deposits_held(ON)] == [
        ("strip-down", "Marel Otten", Decimal(470))
    ]
    assert held_of(payment) == 470
    assert paid(Job.objects.get()) == payment


def test_with_the_yes_it_is_held_for_the_build_and_its_invoice_takes_it_off() -> None:
    yes = build()
    row = job(engine=yes.quote.engine)
    paid(row)
    assert build_account(yes, ON).deposit_left == 0
    tie_quote(job=row, quote=yes.quote, by=desk(), now=NOW)
    assert build_account(yes, ON).deposit_left == 470
    assert [held.build_id for held in deposits_held(ON)] == [yes.pk]
    invoice = issue(drafted(yes))
    assert (invoice.prepaid, invoice.due) == (Decimal(470), Decimal("2716.48"))
    assert deposits_held(ON) == []


def test_on_a_no_the_strip_down_is_invoiced_at_the_price_agreed_less_its_deposit() -> None:
    row = stripped_without_quote()
    paid(row)
    declined = no(row)
    assert declined.draft is not None
    sheet = draft_sheet(declined.draft, ON)
    assert (sheet.sums.gross + sheet.sums.rounding, sheet.sums.prepaid, sheet.sums.due) == (
        Decimal(940),
        Decimal(470),
        Decimal(470),
    )
    invoice = issue(declined.draft)
    assert invoice.due == 470
    assert deposits_held(ON) == []


def test_putting_it_back_is_on_the_invoice_where_that_is_what_becomes_of_it() -> None:
    declined = no(stripped_without_quote(), "reassembled")
    assert declined.draft is not None
    assert draft_sheet(declined.draft, ON).sums.due == 2510
    assert [line.description for line in content_of(declined.draft).lines] == [
        "Strip-down, job J-2026-0001",
        "Put back as it was",
    ]


def test_a_no_before_anything_was_undone_costs_nothing_and_the_deposit_goes_back() -> None:
    row = job()
    leave(row)
    payment = paid(row)
    assert no(row).draft is None
    back: dict[str, Any] = {"customer": row.customer, "on": ON, "method": "card", "by": desk(), "now": NOW}
    with pytest.raises(NothingToPayBack):
        refund(amount=Decimal(471), key="a", deposit_of=row, **back)
    refund(amount=Decimal(470), key="b", deposit_of=row, **back)
    assert held_of(payment) == 0
    assert deposits_held(ON) == []


def test_one_deposit_is_not_taken_off_twice() -> None:
    row = stripped_without_quote()
    paid(row)
    first = no(row).draft
    assert first is not None
    again = InvoiceDraft.objects.create(
        kind="invoice",
        customer=row.customer,
        content=first.content,
        started_by=books(),
        started_at=NOW,
        edited_at=NOW,
    )
    issue(first)
    with pytest.raises(DraftFaults, match="at most 0"):
        issue(again)


def test_a_deposit_that_did_not_hold_is_held_no_more() -> None:
    payment = paid(job())
    reverse_payment(payment=payment, on=ON, by=desk(), now=NOW, note="The card was refused")
    assert held_of(payment) == 0
    assert deposits_held(ON) == []


def test_what_the_strip_down_took_off_is_not_the_builds_any_more() -> None:
    yes = build()
    row = stripped_without_quote(yes.quote.engine)
    paid(row)
    draft = no(row).draft
    assert draft is not None
    issue(draft)
    tie_quote(job=row, quote=yes.quote, by=desk(), now=NOW)
    assert build_account(yes, ON).deposit_left == 0


def test_a_no_is_said_once_and_the_engine_leaves_as_agreed() -> None:
    row = stripped_without_quote()
    with pytest.raises(NotDeclined):
        send_back(job=row, by=desk(), now=NOW)
    first = no(row)
    assert no(row) == first
    with pytest.raises(AlreadyDeclined):
        no(row, "scrapped")
    step = send_back(job=row, by=desk(), now=NOW, note="Fetched by his brother.")
    assert step.note == "returned in boxes. Fetched by his brother."
    assert Job.objects.get().left_at == NOW


def test_a_yes_is_not_undone_here() -> None:
    with pytest.raises(WasSaidYes):
        no(built_job())
