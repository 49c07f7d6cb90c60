"""Money that goes back, cheques that bounce, credits, and what is given up."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.allocating import allocate, set_off, take_apart
from quotes.actions.books.refused import NotAllocatable, NothingToPayBack, NotReversible
from quotes.actions.books.write_off import write_off
from quotes.calc.invoice.draft import Draft
from quotes.models import Acceptance, Allocation, Invoice, JournalEntry, OpenItem, Payment, WriteOff
from tests.books import cast
from tests.books.cast import DEPOSIT, GROSS, NOW, ON
from tests.books.ledger_cast import (
    balance,
    bounced,
    deposit,
    item_of,
    marel,
    paid,
    paid_back,
    still_open,
)
from tests.cast import books, owner

pytestmark = pytest.mark.usefixtures("sound_ledger")


@pytest.fixture
def invoice(build: Acceptance) -> Invoice:
    return cast.invoiced(build)


def given_up(invoice: Invoice, amount: Decimal, reason: str = "Letters come back") -> WriteOff:
    item = item_of(invoice)
    return write_off(item=item, amount=amount, reason=reason, on=ON, by=owner(), now=NOW)


def test_what_was_paid_too_much_is_paid_back(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)

    back = paid_back("20", from_item=item_of(payment))

    assert (still_open(payment), still_open(back)) == (0, 0)
    assert (balance("receivables"), balance("bank")) == (0, GROSS)


def test_a_credit_note_closes_its_invoice_as_far_as_that_is_open(invoice: Invoice) -> None:
    credit = cast.credited(invoice)

    assert (still_open(invoice), still_open(credit)) == (0, 0)


def test_a_credit_note_on_a_paid_invoice_is_in_credit_and_can_be_paid_back(invoice: Invoice) -> None:
    paid(GROSS)
    credit = cast.credited(invoice)
    assert still_open(credit) == -GROSS

    paid_back(GROSS, from_item=item_of(credit))

    assert (still_open(credit), balance("receivables"), balance("bank")) == (0, 0, 0)


def test_no_more_is_paid_back_than_is_in_credit(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)

    with pytest.raises(NothingToPayBack, match="at most"):
        paid_back("20.01", from_item=item_of(payment))
    assert Payment.objects.count() == 1


def test_nothing_is_paid_back_to_another_customer(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)

    with pytest.raises(NothingToPayBack):
        paid_back("20", customer=cast.other_payer(), from_item=item_of(payment))


def test_an_invoice_is_not_paid_back(invoice: Invoice) -> None:
    with pytest.raises(NothingToPayBack):
        paid_back("20", from_item=item_of(invoice))


def test_paying_back_twice_with_one_form_pays_once(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)

    first = paid_back("20", from_item=item_of(payment), key="form")
    assert paid_back("20", from_item=item_of(payment), key="form") == first


def test_a_refund_says_from_what(invoice: Invoice, build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="Say what is paid back"):
        paid_back("20")


def test_a_cheque_that_bounced_opens_what_it_had_settled(invoice: Invoice) -> None:
    cheque = paid(GROSS, method="cheque")
    back = bounced(cheque)

    assert (still_open(invoice), still_open(cheque), still_open(back)) == (GROSS, 0, 0)
    assert (balance("receivables"), balance("cheques")) == (GROSS, 0)
    assert sorted(Allocation.objects.values_list("amount", flat=True)) == [-GROSS, GROSS, GROSS]


def test_a_cheque_bounces_once(invoice: Invoice) -> None:
    cheque = paid("100", method="cheque")

    assert bounced(cheque) == bounced(cheque)
    with pytest.raises(NotReversible):
        bounced(bounced(cheque))


def test_a_cheque_of_which_some_was_paid_back_leaves_that_owed(invoice: Invoice) -> None:
    cheque = paid(GROSS + 20, method="cheque")
    back = paid_back("20", from_item=item_of(cheque))

    bounced(cheque)

    assert (still_open(invoice), still_open(back)) == (GROSS, 20)


def test_a_refund_that_came_back_is_in_credit_again(invoice: Invoice) -> None:
    payment = paid(GROSS + 20)
    back = paid_back("20", from_item=item_of(payment))

    bounced(back)

    assert (still_open(payment), still_open(back), balance("bank")) == (-20, 0, GROSS + 20)


def test_taking_back_needs_a_reason(invoice: Invoice) -> None:
    with pytest.raises(ValidationError, match="why"):
        bounced(paid("5"), note=" ")


def test_a_deposit_by_receipt_is_held_and_paid_back(build: Acceptance) -> None:
    deposit(build, "500")
    assert (balance("deposits_held"), balance("receivables")) == (-500, 0)

    paid_back("500", deposit_of=build)

    assert (balance("deposits_held"), balance("bank")) == (0, 0)
    assert not OpenItem.objects.exists()


def test_no_more_of_a_deposit_is_paid_back_than_is_held(build: Acceptance) -> None:
    deposit(build, "500")
    paid_back("200", deposit_of=build)

    with pytest.raises(NothingToPayBack, match="at most"):
        paid_back("300.01", deposit_of=build)
    with pytest.raises(NothingToPayBack):
        paid_back("1", customer=cast.other_payer(), deposit_of=build)


def test_a_deposit_that_an_invoice_took_off_is_held_no_more(build: Acceptance) -> None:
    deposit(build, "500")

    invoice = cast.invoiced(build)

    assert invoice.prepaid == 500
    assert (still_open(invoice), balance("deposits_held")) == (GROSS - 500, 0)
    with pytest.raises(NothingToPayBack):
        paid_back("1", deposit_of=build)


def test_a_deposit_by_cheque_that_bounces_is_no_longer_held(build: Acceptance) -> None:
    bounced(deposit(build, "500", method="cheque"))

    assert (balance("deposits_held"), balance("cheques"), balance("receivables")) == (0, 0, 0)


def test_a_deposit_that_bounces_once_it_was_taken_off_is_owed(build: Acceptance) -> None:
    deposit(build, "300")
    cheque = deposit(build, "500", method="cheque")
    invoice = cast.invoiced(build)

    back = bounced(cheque)

    assert (still_open(invoice), still_open(back)) == (GROSS - 800, 500)
    assert balance("deposits_held") == 0


def test_a_deposit_invoice_holds_its_net_until_the_invoice_takes_it_off(build: Acceptance) -> None:
    asked = cast.deposited(build)
    assert (still_open(asked), balance("deposits_held")) == (DEPOSIT, -asked.net)
    paid(DEPOSIT)

    final = cast.invoiced(build)

    assert (still_open(final), balance("deposits_held")) == (GROSS - DEPOSIT, 0)


def test_a_deposit_larger_than_the_invoice_is_paid_back(build: Acceptance) -> None:
    paid(cast.deposited(build).gross)
    final = cast.issue(cast.changed(cast.drafted(build), only_consumables))
    assert still_open(final) < 0

    paid_back(-still_open(final), from_item=item_of(final))

    assert (still_open(final), balance("deposits_held")) == (0, 0)


def only_consumables(content: Draft) -> Draft:
    """The rest of the job is off, and all of the deposit is still taken off."""
    lines = tuple(line for line in content.lines if line.kind in ("consumables", "deposit"))
    return content.model_copy(update={"lines": lines})


def test_credits_are_set_off_against_what_is_owed(invoice: Invoice) -> None:
    first, second = paid("100", allocate={}), paid("50", allocate={})

    set_off(customer=marel(), on=ON, by=books(), now=NOW)

    assert (still_open(first), still_open(second), still_open(invoice)) == (0, 0, GROSS - 150)
    assert not set_off(customer=marel(), on=ON, by=books(), now=NOW)


def test_a_wrong_allocation_is_taken_apart(invoice: Invoice) -> None:
    payment = paid("100")

    take_apart(allocation=Allocation.objects.get(), on=ON, by=books(), now=NOW)

    assert (still_open(payment), still_open(invoice)) == (-100, GROSS)
    assert take_apart(allocation=Allocation.objects.earliest("pk"), on=ON, by=books(), now=NOW) is None


def test_a_debit_settles_nothing(invoice: Invoice) -> None:
    payment = paid("100", allocate={})

    with pytest.raises(NotAllocatable, match="not the other way"):
        allocate(
            credit=item_of(invoice), debit=item_of(payment), amount=Decimal(5), on=ON, by=books(), now=NOW
        )


def test_what_is_written_off_is_open_no_more(invoice: Invoice) -> None:
    paid("3000")

    row = given_up(invoice, GROSS - 3000)

    assert (row.number, still_open(invoice)) == ("W-2026-0001", 0)
    assert (balance("written_off"), balance("receivables")) == (GROSS - 3000, 0)
    assert JournalEntry.objects.get(write_off=row).text == "Written off W-2026-0001: I-2026-0001"


def test_no_more_is_written_off_than_is_open(invoice: Invoice) -> None:
    given_up(invoice, GROSS)

    with pytest.raises(NotAllocatable, match="can't be written off"):
        given_up(invoice, GROSS)
    assert WriteOff.objects.count() == 1


def test_writing_off_needs_a_reason(invoice: Invoice) -> None:
    with pytest.raises(ValidationError, match="Write why"):
        given_up(invoice, GROSS, " ")
