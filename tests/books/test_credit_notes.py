"""Credit notes: whole and in part, never more than is left, and never of themselves."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.drafts import start_credit
from quotes.actions.books.refused import DraftFaults, NotCreditable
from quotes.calc.invoice.draft import Draft
from quotes.models import Acceptance, InvoiceDraft, JournalLine, OpenItem
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import sheet_of_invoice
from quotes.queries.books.sheets import content_of
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books


def test_a_whole_credit_note_refers_to_its_original_with_positive_sums(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    credit = cast.credited(invoice)

    sheet = sheet_of_invoice(credit)
    assert (credit.number, sheet.sums.gross, sheet.reason) == ("C-2026-0001", cast.GROSS, "Asked for twice")
    assert [(one.number, one.issued_on) for one in sheet.preceding] == [("I-2026-0001", NOW.date())]


def test_a_whole_credit_note_leaves_nothing_owed_and_no_sales(build: Acceptance) -> None:
    cast.credited(cast.invoiced(build))

    assert {item.open_amount for item in OpenItem.objects.all()} == {0}
    balances: dict[str, Decimal] = {}
    for line in JournalLine.objects.all():
        balances[line.role] = balances.get(line.role, Decimal(0)) + line.debit - line.credit
    assert set(balances.values()) == {0}


def test_a_part_is_credited_by_its_quantity(build: Acceptance) -> None:
    credit = cast.credited(cast.invoiced(build), {1: "0.5"})

    assert (credit.net, credit.gross) == (Decimal("55.00"), Decimal("66.00"))
    assert OpenItem.objects.get(kind="invoice").open_amount == cast.GROSS - 66


def test_what_was_credited_is_left_to_invoice(build: Acceptance) -> None:
    cast.credited(cast.invoiced(build), {1: "0.5"})

    left = build_account(build, NOW.date()).to_invoice

    assert [(line.key, line.quantity) for line in left] == [("option:labour:cases_split", Decimal("0.5"))]


def test_credit_notes_in_parts_come_to_the_original(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    notes = [cast.credited(invoice, {1: "2.27", 3: "5", 4: "0.33"}), cast.credited(invoice, {3: "0.5"})]

    notes.append(cast.credited(invoice))

    assert sum(note.net for note in notes) == cast.NET


def test_never_more_than_is_left_of_a_line(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    cast.credited(invoice, {3: "10"})

    with pytest.raises(
        DraftFaults, match=r"lines\.1\.quantity: 7: at most 6 each: that is left of Valve spr"
    ):
        cast.credited(invoice, {3: "7"})


def test_two_credits_started_at_once_do_not_give_back_twice(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    first = start_credit(invoice=invoice, by=books(), now=NOW)
    second = InvoiceDraft.objects.create(
        kind="credit_note",
        customer=first.customer,
        build=first.build,
        original=invoice,
        content=first.content,
        started_by=books(),
        started_at=NOW,
        edited_at=NOW,
    )
    cast.issue(first)

    with pytest.raises(DraftFaults, match="at most 0 h: that is left of Split the cases"):
        cast.issue(second)


def test_prices_of_a_credit_note_are_those_of_the_original(build: Acceptance) -> None:
    draft = start_credit(invoice=cast.invoiced(build), by=books(), now=NOW)

    def dearer(content: Draft) -> Draft:
        lines = [line.model_copy(update={"unit_price": Decimal(9000)}) for line in content.lines]
        return content.model_copy(update={"lines": tuple(lines)})

    assert cast.issue(cast.changed(draft, dearer)).gross == cast.GROSS


def test_a_credit_note_takes_back_lines_of_its_original_only(build: Acceptance) -> None:
    draft = start_credit(invoice=cast.invoiced(build), by=books(), now=NOW)

    with pytest.raises(DraftFaults, match="a line of I-2026-0001, once"):
        cast.changed(draft, cast.with_line(cast.line()))


def test_a_credit_note_bears_the_tax_of_its_original(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    cast.change_rate("25")

    assert cast.credited(invoice).tax == invoice.tax


def test_a_credit_note_is_started_once(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    first = start_credit(invoice=invoice, by=books(), now=NOW)

    assert start_credit(invoice=invoice, by=books(), now=NOW) == first
    assert len(content_of(first).lines) == 6


def test_a_credit_note_is_not_credited(build: Acceptance) -> None:
    credit = cast.credited(cast.invoiced(build))

    with pytest.raises(NotCreditable, match=r"itself a credit note, on I-2026-0001.*with a new invoice"):
        start_credit(invoice=credit, by=books(), now=NOW)


def test_what_is_credited_in_full_is_not_credited_again(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    cast.credited(invoice)

    with pytest.raises(NotCreditable, match="credited in full already"):
        start_credit(invoice=invoice, by=books(), now=NOW)


def test_a_credit_note_goes_to_who_was_asked(build: Acceptance) -> None:
    draft = start_credit(invoice=cast.invoiced(build), by=books(), now=NOW)

    with pytest.raises(ValidationError, match="Marel Otten, who was asked"):
        cast.changed(draft, lambda content: content, customer=cast.other_payer())


def test_a_correction_is_a_credit_note_and_a_new_invoice(build: Acceptance) -> None:
    wrong = cast.invoiced(build)

    cast.credited(wrong)
    right = cast.invoiced(build)

    assert (wrong.number, right.number, right.gross) == ("I-2026-0001", "I-2026-0002", cast.GROSS)
