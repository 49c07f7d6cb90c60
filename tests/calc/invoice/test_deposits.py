"""Deposits by invoice: asked for with tax, taken off per rate, also where more was asked than it came to."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.invoice.credit import credit_draft, left_to_credit
from quotes.calc.invoice.deposits import (
    NothingToDeposit,
    deposit_draft,
    deposit_lines,
    deposit_rounding,
)
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.from_yes import still_to_invoice
from quotes.calc.invoice.sums import draft_sums
from quotes.calc.invoice.values import InvoiceSheet, Sums
from tests.calc.invoice.made_up import ANY, DECIMALS, accepted
from tests.calc.invoice.plain import (
    CODES,
    STANDARD,
    credit_of,
    deposit_invoice,
    draft_line,
    said,
    sheet,
    with_rate,
)

LINES = (draft_line("10", "100"), draft_line("4", "100", "reduced"))
SUMS = draft_sums(Draft(lines=LINES), CODES, 2)


def asked(sum_: str, sums: Sums = SUMS, decimals: int = 2) -> Draft:
    words = "Deposit on quote Q-2026-0001"
    return deposit_draft(Decimal(sum_), sums.tax_groups, CODES, decimals=decimals, words=words)


def final(*deposits: InvoiceSheet, lines: tuple[DraftLine, ...] = LINES) -> Draft:
    return Draft(lines=(*lines, *deposit_lines(deposits)), rounding=deposit_rounding(deposits))


def test_a_deposit_is_split_over_the_taxes_of_what_was_accepted() -> None:
    draft = asked("814")

    assert said(SUMS.gross) == "1628"
    assert [(line.kind, line.tax_code, said(line.unit_price)) for line in draft.lines] == [
        ("deposit", "standard", "500"),
        ("deposit", "reduced", "200"),
    ]
    assert said(draft_sums(draft, CODES, 2).due, draft.rounding) == "814 0"


def test_a_sum_with_tax_that_cannot_be_had_is_made_up_by_the_rounding() -> None:
    one_tax = draft_sums(Draft(lines=LINES[:1]), CODES, 2)
    draft = asked("0.03", one_tax)

    sums = draft_sums(draft, CODES, 2)

    assert said(sums.gross, sums.rounding, sums.due) == "0.04 -0.01 0.03"


@pytest.mark.parametrize("sum_", ["0", "-5"])
def test_a_deposit_of_nothing_is_refused(sum_: str) -> None:
    with pytest.raises(NothingToDeposit):
        asked(sum_)


def test_a_deposit_on_nothing_is_refused() -> None:
    with pytest.raises(NothingToDeposit):
        asked("10", draft_sums(Draft(), CODES, 2))


def test_the_last_invoice_takes_the_deposit_off_per_rate() -> None:
    deposit = deposit_invoice(asked("814"))

    draft = final(deposit)
    sums = draft_sums(draft, CODES, 2)

    assert [(line.key, said(line.quantity, line.unit_price)) for line in draft.lines[2:]] == [
        ("deposit:D-2026-0001:standard", "-1 500"),
        ("deposit:D-2026-0001:reduced", "-1 200"),
    ]
    assert [said(group.taxable, group.tax) for group in sums.tax_groups] == ["500 100", "200 14"]
    assert said(sums.due) == "814"


def test_a_deposit_is_taken_off_at_the_rate_that_it_bore() -> None:
    deposit = deposit_invoice(asked("814"))

    sums = draft_sums(final(deposit), with_rate(STANDARD, "21"), 2)

    assert [said(group.rate_pct, group.taxable, group.tax) for group in sums.tax_groups] == [
        "21 1000 210",
        "7 200 14",
        "20 -500 -100",
    ]


def test_a_deposit_larger_than_the_invoice_is_owed_back() -> None:
    deposit = deposit_invoice(asked("814"))

    sums = draft_sums(final(deposit, lines=LINES[1:]), CODES, 2)

    assert said(sums.gross, sums.due) == "-386 -386"


def test_the_customer_pays_the_gross_to_the_unit_whatever_the_deposit_was_rounded_by() -> None:
    lines = (draft_line("1", "10.00"),)
    whole = draft_sums(Draft(lines=lines), CODES, 2)
    deposit = deposit_invoice(asked("0.03", whole))

    sums = draft_sums(final(deposit, lines=lines), CODES, 2)

    assert deposit.sums.due + sums.due == whole.gross


def test_a_deposit_that_was_credited_is_not_taken_off() -> None:
    deposit = deposit_invoice(asked("814"))
    note = credit_of(deposit, credit_draft(deposit, left_to_credit(deposit)))

    assert deposit_lines([deposit, note]) == ()
    assert deposit_rounding([deposit, note]) == 0


def test_a_deposit_that_was_credited_in_part_is_taken_off_in_part() -> None:
    deposit = deposit_invoice(asked("814"))
    note = credit_of(deposit, credit_draft(deposit, {1: Decimal(1)}))

    assert [line.key for line in deposit_lines([deposit, note])] == ["deposit:D-2026-0001:reduced"]


def test_a_deposit_is_taken_off_once() -> None:
    lines = deposit_lines([deposit_invoice(asked("814"))])

    assert still_to_invoice(lines, {line.key: line.quantity for line in lines}) == ()


def test_two_deposits_are_told_apart() -> None:
    both = [deposit_invoice(asked("400")), deposit_invoice(asked("400"), "D-2026-0002")]

    assert len({line.key for line in deposit_lines(both)}) == 4


@ANY
@given(st.data(), st.integers(1, 15_000))
def test_any_deposit_asks_for_its_sum_and_is_taken_off_per_rate(data: st.DataObject, per_myriad: int) -> None:
    decimals = data.draw(DECIMALS)
    unit = Decimal(1).scaleb(-decimals)
    lines = tuple(line for line in data.draw(accepted(decimals)) if line.quantity > 0)
    whole = draft_sums(Draft(lines=lines), CODES, decimals)
    share = (whole.gross * per_myriad / 10_000).quantize(unit)
    bearing = [group for group in whole.tax_groups if group.taxable > 0]
    if share <= 0 or not bearing:
        return
    deposit = deposit_invoice(
        deposit_draft(share, whole.tax_groups, CODES, decimals=decimals, words="Deposit"), decimals=decimals
    )

    last = sheet(final(deposit, lines=lines), decimals=decimals)

    assert deposit.sums.due == share
    assert abs(deposit.sums.rounding) <= unit * len(bearing)
    held = {(group.category, group.rate_pct): group for group in deposit.sums.tax_groups}
    left = {(group.category, group.rate_pct): group for group in last.sums.tax_groups}
    for group in whole.tax_groups:
        key = (group.category, group.rate_pct)
        taken, taxed = (held[key].taxable, held[key].tax) if key in held else (Decimal(0), Decimal(0))
        assert left[key].taxable == group.taxable - taken
        assert abs(left[key].tax - (group.tax - taxed)) <= unit
    assert abs(deposit.sums.due + last.sums.due - whole.gross) <= unit * len(whole.tax_groups)
