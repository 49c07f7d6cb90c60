"""What each issued document does to the accounts, side by side with its entry."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.posting import invoice_entry
from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.values import Adjustment, InvoiceSheet
from tests.calc.books.said import said
from tests.calc.invoice.plain import CODES, credit_of, deposit_invoice, draft_line, sheet

ALL_SORTS = Draft(
    lines=(
        draft_line("2", "110.00", kind="labour", unit="h"),
        draft_line("1", "300.00", kind="part"),
        draft_line("1", "80.00", "reduced", kind="part"),
        draft_line("1", "90.00", kind="machine_work"),
        draft_line("1", "15.00", kind="consumables"),
        draft_line("-1", "25.00", kind="discount"),
        draft_line("1", "40.00", kind="core"),
        draft_line("3", "10.00", kind="storage"),
        draft_line("1", "12.00", kind="freight"),
        draft_line("1", "6.79", "exempt", kind="interest"),
        draft_line("1", "5.00", kind="other"),
    )
)


def posted(document: InvoiceSheet, build: str = "") -> list[str]:
    return said(invoice_entry(document, DEFAULT_ACCOUNTS, build))


def test_sales_fall_on_the_account_of_their_kind_and_tax_on_one_line_a_rate() -> None:
    assert posted(sheet(ALL_SORTS)) == [
        "receivables Dr 916.79",
        "sales_labour Cr 220.00 standard 20",
        "sales_parts Cr 300.00 standard 20",
        "sales_parts Cr 80.00 reduced 7",
        "sales_machine_work Cr 90.00 standard 20",
        "sales_consumables Cr 15.00 standard 20",
        "discounts Dr 25.00 standard 20",
        "sales_other Cr 87.00 standard 20",
        "interest_income Cr 6.79 exempt 0",
        "tax_on_sales Cr 137.40 standard 20",
        "tax_on_sales Cr 5.60 reduced 7",
    ]


def test_a_credit_note_is_the_mirror_of_what_it_takes_back() -> None:
    original = sheet(ALL_SORTS)
    mirror = invoice_entry(
        original.model_copy(update={"kind": "credit_note", "number": "C-2026-0001"}), DEFAULT_ACCOUNTS
    )

    turned = [text.replace("Dr", "?").replace("Cr", "Dr").replace("?", "Cr") for text in said(mirror)]
    assert turned == posted(original)
    assert mirror.text == "Credit note C-2026-0001"


def test_a_credit_note_keeps_the_rate_of_its_original_after_the_rate_has_changed() -> None:
    original = sheet(Draft(lines=(draft_line(),)))
    back = Draft(lines=tuple(draft_line(taxed=line.taxed, of_line=line.number) for line in original.lines))

    assert posted(credit_of(original, back)) == [
        "receivables Cr 120.00",
        "sales_parts Dr 100.00 standard 20",
        "tax_on_sales Dr 20.00 standard 20",
    ]


def test_a_deposit_invoice_is_a_liability_for_its_net() -> None:
    asked = Draft(lines=(draft_line("1", "500.00", kind="deposit", key="deposit:D-2026-0001:standard"),))

    assert posted(deposit_invoice(asked), "Q-2026-0001") == [
        "receivables Dr 600.00 Q-2026-0001",
        "deposits_held Cr 500.00 standard 20 Q-2026-0001",
        "tax_on_sales Cr 100.00 standard 20 Q-2026-0001",
    ]


def test_the_final_invoice_takes_the_deposit_from_those_held_and_taxes_the_rest() -> None:
    final = Draft(lines=(draft_line("1", "800.00"), draft_line("-1", "500.00", kind="deposit")))

    assert posted(sheet(final)) == [
        "receivables Dr 360.00",
        "sales_parts Cr 800.00 standard 20",
        "deposits_held Dr 500.00 standard 20",
        "tax_on_sales Cr 60.00 standard 20",
    ]


def test_a_deposit_larger_than_the_invoice_leaves_the_customer_in_credit() -> None:
    final = Draft(lines=(draft_line("1", "300.00"), draft_line("-1", "500.00", kind="deposit")))

    assert posted(sheet(final)) == [
        "receivables Cr 240.00",
        "sales_parts Cr 300.00 standard 20",
        "deposits_held Dr 500.00 standard 20",
        "tax_on_sales Dr 40.00 standard 20",
    ]


def test_a_deposit_by_receipt_is_taken_off_what_is_due_and_not_off_the_tax() -> None:
    final = Draft(lines=(draft_line("1", "300.00"),), prepayments={"R-2026-0001": Decimal("100.00")})

    assert posted(sheet(final)) == [
        "receivables Dr 260.00",
        "deposits_held Dr 100.00",
        "sales_parts Cr 300.00 standard 20",
        "tax_on_sales Cr 60.00 standard 20",
    ]


def test_rounding_and_the_allowances_of_the_whole_document_have_accounts() -> None:
    parts: list[dict[str, Any]] = [
        {"kind": "allowance", "amount": Decimal("10.00"), "reason": "Good customer"},
        {"kind": "charge", "amount": Decimal("4.00"), "reason": "Packing"},
    ]
    draft = Draft(
        lines=(draft_line("1", "100.03"),),
        adjustments=tuple(Adjustment(tax_code="standard", **part) for part in parts),
        rounding=Decimal("0.01"),
    )

    assert posted(sheet(draft)) == [
        "receivables Dr 112.85",
        "rounding Cr 0.01",
        "sales_parts Cr 100.03 standard 20",
        "discounts Dr 10.00 standard 20",
        "sales_other Cr 4.00 standard 20",
        "tax_on_sales Cr 18.81 standard 20",
    ]


def test_a_sheet_whose_lines_are_not_its_totals_has_no_entry() -> None:
    sound = sheet(Draft(lines=(draft_line(), draft_line("2", "7.00"))))
    short = sound.model_copy(update={"lines": sound.lines[:1]})

    with pytest.raises(ValueError, match="are not credits"):
        invoice_entry(short, DEFAULT_ACCOUNTS)


def test_state_and_county_tax_of_one_code_are_one_line() -> None:
    assert posted(sheet(Draft(lines=(draft_line("1", "100.00", "sales"),)), CODES))[-1] == (
        "tax_on_sales Cr 7.25 sales 7.25"
    )
