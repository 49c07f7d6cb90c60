"""Deposits: asked for by invoice or taken by receipt, and taken off the invoice again."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.actions.books.drafts import start_credit, start_deposit
from quotes.actions.books.payments import take_payment
from quotes.actions.books.refused import DepositByReceipt, DraftFaults, NotCreditable, NothingToInvoice
from quotes.calc.invoice.draft import Draft
from quotes.models import Acceptance, JournalLine, OpenItem, Payment
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import sheet_of_invoice
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books, desk


def held() -> Decimal:
    """What the journal says is held as deposits."""
    lines = JournalLine.objects.filter(role="deposits_held")
    return sum((line.credit - line.debit for line in lines), Decimal(0))


def receipt(build: Acceptance, amount: str = "1593.24") -> Payment:
    return take_payment(
        customer=build.quote.customer,
        on=NOW.date(),
        amount=Decimal(amount),
        method="transfer",
        key=f"deposit:{amount}",
        build=build,
        deposit=True,
        by=desk(),
        now=NOW,
    )


def test_a_deposit_invoice_asks_for_the_agreed_deposit_with_its_tax(build: Acceptance) -> None:
    invoice = cast.deposited(build)

    sheet = sheet_of_invoice(invoice)
    assert (invoice.number, sheet.kind, sheet.sums.due) == ("D-2026-0001", "deposit_invoice", cast.DEPOSIT)
    assert (sheet.sums.net, sheet.sums.tax) == (Decimal("1327.70"), Decimal("265.54"))
    assert held() == Decimal("1327.70")


def test_a_deposit_is_split_over_the_taxes_of_what_was_accepted(db: None) -> None:
    cast.sales_tax_shop()
    build = cast.build()

    sheet = sheet_of_invoice(cast.deposited(build))

    assert {line.tax_code for line in sheet.lines} == {"sales", "exempt"}
    assert sheet.sums.due == build.deposit


def test_a_deposit_is_asked_for_once(build: Acceptance) -> None:
    cast.deposited(build)

    with pytest.raises(NothingToInvoice, match=r"1593\.24 EUR was asked for already: D-2026-0001"):
        start_deposit(build=build, by=desk(), now=NOW)


def test_a_deposit_that_was_credited_can_be_asked_for_again(build: Acceptance) -> None:
    cast.credited(cast.deposited(build))

    assert held() == 0
    assert cast.deposited(build).number == "D-2026-0002"


def test_where_deposits_are_taken_by_receipt_the_desk_is_told_to_take_a_payment(build: Acceptance) -> None:
    cast.keep_settings(deposit_by="receipt")

    with pytest.raises(DepositByReceipt, match="take a payment for the build and mark it as a deposit"):
        start_deposit(build=build, by=desk(), now=NOW)


def test_the_invoice_takes_the_deposit_off_at_each_tax_rate(build: Acceptance) -> None:
    deposit = cast.deposited(build)

    sheet = sheet_of_invoice(cast.invoiced(build))

    off = sheet.lines[-1]
    assert (off.kind, off.key, off.net) == (
        "deposit",
        f"deposit:{deposit.number}:standard",
        Decimal("-1327.70"),
    )
    assert sheet.sums.due == cast.GROSS - cast.DEPOSIT
    assert [one.number for one in sheet.preceding] == [deposit.number]
    assert held() == 0


def test_the_deposit_keeps_the_rate_that_it_was_asked_at(build: Acceptance) -> None:
    cast.deposited(build)
    cast.change_rate("22")

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert [(group.rate_pct, group.tax) for group in sheet.sums.tax_groups] == [
        (Decimal(22), Decimal("584.19")),
        (Decimal(20), Decimal("-265.54")),
    ]


def test_a_deposit_by_receipt_is_taken_off_what_is_due(build: Acceptance) -> None:
    cast.keep_settings(deposit_by="receipt")
    paid = receipt(build)

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert (sheet.sums.gross, sheet.sums.prepaid, sheet.sums.due) == (cast.GROSS, cast.DEPOSIT, cast.DEPOSIT)
    assert [one.receipt for one in sheet.prepayments] == [paid.number]
    assert held() == 0


def test_more_than_is_left_of_a_receipt_is_not_taken_off(build: Acceptance) -> None:
    paid = receipt(build, "100")
    draft = cast.changed(
        cast.drafted(build),
        lambda content: content.model_copy(update={"prepayments": {paid.number: Decimal(150)}}),
    )

    with pytest.raises(DraftFaults, match=rf"prepayments\.{paid.number}: 150: at most 100"):
        cast.issue(draft)


def test_a_deposit_larger_than_the_invoice_is_owed_back(build: Acceptance) -> None:
    cast.deposited(build)

    def only_consumables(content: Draft) -> Draft:
        lines = [line for line in content.lines if line.kind in ("consumables", "deposit")]
        return content.model_copy(update={"lines": tuple(lines), "last": True})

    invoice = cast.issue(cast.changed(cast.drafted(build), only_consumables))

    assert invoice.due == 72 - cast.DEPOSIT
    assert invoice.due_on is None
    assert OpenItem.objects.get(invoice=invoice).open_amount == 72 - cast.DEPOSIT
    assert held() == 0
    assert build_account(build, NOW.date()).finally_invoiced


def test_a_first_part_takes_no_more_of_the_deposit_off_than_it_asks_for(build: Acceptance) -> None:
    cast.deposited(build)

    first = cast.invoiced(build, kinds=("consumables", "machine_work"))
    rest = cast.invoiced(build)

    assert [first.due, rest.due] == [0, cast.GROSS - cast.DEPOSIT]
    assert held() == 0


def test_a_deposit_is_taken_off_once(build: Acceptance) -> None:
    cast.deposited(build)
    both = [cast.drafted(build, share_pct=Decimal(40)), cast.drafted(build, share_pct=Decimal(35))]
    cast.issue(both[0])

    with pytest.raises(DraftFaults, match="a deposit taken off, at most"):
        cast.issue(both[1])


def test_another_payers_deposit_is_not_taken_off(build: Acceptance) -> None:
    cast.deposited(build)
    sponsor = cast.other_payer()

    for_sponsor = cast.drafted(build, payer=sponsor)
    assert sheet_of_invoice(cast.issue(for_sponsor)).sums.due == cast.GROSS

    with pytest.raises(NothingToInvoice):
        cast.drafted(build)


def test_a_draft_moved_to_another_payer_does_not_take_the_first_ones_deposit(build: Acceptance) -> None:
    cast.deposited(build)
    draft = cast.changed(cast.drafted(build), lambda content: content, customer=cast.other_payer())

    with pytest.raises(DraftFaults, match="deposits of Two Rivers Team: this one is Marel Otten's"):
        cast.issue(draft)


def test_a_deposit_that_an_invoice_took_off_is_not_credited_itself(build: Acceptance) -> None:
    deposit = cast.deposited(build)
    cast.invoiced(build)

    with pytest.raises(NotCreditable, match=r"taken D-2026-0001 off already. Credit that invoice"):
        start_credit(invoice=deposit, by=books(), now=NOW)


def test_crediting_the_invoice_holds_its_deposit_again(build: Acceptance) -> None:
    cast.deposited(build)

    credit = cast.credited(cast.invoiced(build))

    assert credit.due == cast.GROSS - cast.DEPOSIT
    assert held() == Decimal("1327.70")
    assert build_account(build, NOW.date()).deposit_left == cast.DEPOSIT
    assert cast.invoiced(build).due == cast.GROSS - cast.DEPOSIT


def test_crediting_the_invoice_holds_a_deposit_by_receipt_again(build: Acceptance) -> None:
    receipt(build)

    cast.credited(cast.invoiced(build))

    assert held() == cast.DEPOSIT
    assert cast.invoiced(build).prepaid == cast.DEPOSIT
