"""Credit notes: whole, in part, never more than is left, at the tax of the original."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.invoice.credit import CreditOfCredit, MoreThanIsLeft, credit_draft, left_to_credit
from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.values import Adjustment, InvoiceSheet
from tests.calc.invoice.made_up import ANY, DECIMALS, drafts
from tests.calc.invoice.plain import credit_of, deposit_invoice, draft_line, said, sheet

ALLOWANCE = Adjustment(kind="allowance", amount=Decimal("10.00"), reason="Campaign", tax_code="standard")
SPRINGS = draft_line("16", "11.85", key="option:part:valve_spring")
RINGS = draft_line("4", "58.90", key="option:part:ring", tax_code="reduced")
INVOICE = sheet(Draft(lines=(SPRINGS, RINGS)))


def credit(original: InvoiceSheet, quantities: dict[int, str], *earlier: InvoiceSheet) -> InvoiceSheet:
    asked = {number: Decimal(quantity) for number, quantity in quantities.items()}
    return credit_of(original, credit_draft(original, asked, earlier), f"C-2026-{len(earlier) + 1:04}")


def credit_rest(original: InvoiceSheet, *earlier: InvoiceSheet) -> InvoiceSheet:
    return credit_of(original, credit_draft(original, left_to_credit(original, earlier), earlier))


def test_some_of_a_line_is_credited_at_its_price() -> None:
    note = credit(INVOICE, {1: "3"})

    assert [(line.key, line.of_line, said(line.quantity, line.net)) for line in note.lines] == [
        ("option:part:valve_spring", 1, "3 35.55")
    ]
    assert said(note.sums.net, note.sums.tax, note.sums.gross) == "35.55 7.11 42.66"


def test_a_credit_bears_the_tax_of_its_original_after_the_rate_has_changed() -> None:
    assert [group.rate_pct for group in credit_rest(INVOICE).sums.tax_groups] == [20, 7]


def test_what_is_left_is_less_by_what_was_credited() -> None:
    note = credit(INVOICE, {1: "3", 2: "4"})

    assert left_to_credit(INVOICE, [note]) == {1: Decimal(13)}


@pytest.mark.parametrize("asked", ["14", "-1"])
def test_more_than_is_left_is_refused_and_named(asked: str) -> None:
    note = credit(INVOICE, {1: "3"})

    with pytest.raises(MoreThanIsLeft, match=f"line 1: {asked} can't be credited, 13 is left"):
        credit(INVOICE, {1: asked}, note)


def test_a_line_that_is_not_on_the_original_is_refused() -> None:
    with pytest.raises(MoreThanIsLeft, match="line 9: 1 can't be credited, 0 is left"):
        credit(INVOICE, {9: "1"})


def test_a_credit_note_is_not_credited() -> None:
    note = credit(INVOICE, {1: "3"})

    with pytest.raises(CreditOfCredit, match="C-2026-0001 is a credit note itself"):
        credit_draft(note, {1: Decimal(1)})


def test_a_discount_line_is_credited_in_its_own_sign() -> None:
    original = sheet(Draft(lines=(SPRINGS, draft_line("-1", "9.60", kind="discount"))))

    note = credit(original, {2: "-1"})

    assert said(note.sums.net, note.sums.tax) == "-9.6 -1.92"


def test_a_part_takes_its_share_of_what_is_allowed_on_the_whole() -> None:
    original = sheet(Draft(lines=(draft_line("4", "100"),), adjustments=(ALLOWANCE,)))

    note = credit(original, {1: "1"})

    assert said(note.sums.line_total, note.sums.allowance_total, note.sums.net) == "100 2.5 97.5"


def test_the_last_part_takes_what_is_left_of_it() -> None:
    original = sheet(Draft(lines=(draft_line("3", "100"),), adjustments=(ALLOWANCE,)))
    first = credit(original, {1: "1"})
    second = credit(original, {1: "1"}, first)
    third = credit_rest(original, first, second)

    taken = [note.sums.allowance_total for note in (first, second, third)]
    assert said(*taken) == "3.33 3.33 3.34"


def test_a_share_is_not_blown_up_by_a_return_among_the_lines() -> None:
    lines = (draft_line("1", "100"), draft_line("-1", "90"))
    original = sheet(Draft(lines=lines, adjustments=(ALLOWANCE,)))

    assert said(credit(original, {1: "1"}).sums.allowance_total) == "5.26"
    assert said(credit(original, {2: "-1"}).sums.allowance_total) == "4.74"


def test_shares_that_all_round_up_stop_at_the_whole() -> None:
    small = ALLOWANCE.model_copy(update={"amount": Decimal("0.05")})
    original = sheet(Draft(lines=(draft_line("10", "1"),), adjustments=(small,)))
    notes: list[InvoiceSheet] = []
    for _ in range(10):
        notes.append(credit(original, {1: "1"}, *notes))

    assert said(*(note.sums.allowance_total for note in notes)) == "0.01 0.01 0.01 0.01 0.01 0 0 0 0 0"


def test_two_allowances_alike_are_each_taken_back_once() -> None:
    original = sheet(Draft(lines=(draft_line("2", "100"),), adjustments=(ALLOWANCE, ALLOWANCE)))
    first = credit(original, {1: "1"})

    assert said(first.sums.allowance_total) == "10"
    assert said(credit_rest(original, first).sums.allowance_total) == "10"


def test_the_parts_of_a_line_that_rounds_badly_add_up() -> None:
    original = sheet(Draft(lines=(draft_line("3", "0.05", price_base=Decimal(2)),)))
    first = credit(original, {1: "1"})
    second = credit(original, {1: "1"}, first)
    third = credit_rest(original, first, second)

    assert said(original.sums.net) == "0.08"
    assert said(*(note.sums.net for note in (first, second, third))) == "0.03 0.03 0.02"


def test_a_deposit_taken_by_receipt_is_held_again_by_the_credit_of_all() -> None:
    original = sheet(Draft(lines=(SPRINGS,), prepayments={"R-2026-0001": Decimal(50)}))

    note = credit_rest(original)

    assert [(one.receipt, said(one.amount)) for one in note.prepayments] == [("R-2026-0001", "50")]
    assert note.sums == original.sums


def test_a_deposit_invoice_is_credited_like_any_other() -> None:
    original = deposit_invoice(Draft(lines=(draft_line(kind="deposit"),)))

    assert credit_rest(original).sums == original.sums


def nets_by_line(notes: list[InvoiceSheet]) -> dict[int, Decimal]:
    """What the notes took back of each line of the original; lines of nothing left out."""
    nets: dict[int, Decimal] = {}
    for line in (line for note in notes for line in note.lines):
        assert line.of_line is not None
        nets[line.of_line] = nets.get(line.of_line, Decimal(0)) + line.net
    return {number: net for number, net in nets.items() if net}


@ANY
@given(st.data())
def test_the_credit_of_the_whole_has_the_very_sums_of_its_original(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    original = sheet(data.draw(drafts(decimals)), decimals=decimals)

    note = credit_rest(original)

    assert note.sums == original.sums
    assert [line.net for line in note.lines] == [line.net for line in original.lines]
    assert left_to_credit(original, [note]) == {}


@ANY
@given(st.data())
def test_credits_in_parts_come_to_the_original(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    original = sheet(data.draw(drafts(decimals)), decimals=decimals)
    notes: list[InvoiceSheet] = []
    for _ in range(data.draw(st.integers(1, 3))):
        left = left_to_credit(original, notes)
        shares = {n: data.draw(st.integers(0, 10)) for n in left}
        part = {n: (q * shares[n] / 10).quantize(Decimal("0.0001")) for n, q in left.items()}
        notes.append(credit_of(original, credit_draft(original, part, notes)))
    notes.append(credit_of(original, credit_draft(original, left_to_credit(original, notes), notes)))

    assert nets_by_line(notes) == {line.number: line.net for line in original.lines if line.net}
    assert sum(note.sums.net for note in notes) == original.sums.net
    unit = Decimal(len(notes) * len(original.sums.tax_groups)).scaleb(-decimals)
    assert abs(sum(note.sums.tax for note in notes) - original.sums.tax) <= unit
    assert left_to_credit(original, notes) == {}
