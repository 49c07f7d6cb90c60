"""The sums of a sheet stand on the page and in the XML, to the last digit, and in the words of its kind."""

from __future__ import annotations

from decimal import Decimal
from io import BytesIO
from typing import Any

import pytest
from lxml import etree  # type: ignore[import-untyped]
from pypdf import PdfReader

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents.invoice import InvoiceFiles
from quotes.documents.invoice.cii import RAM
from quotes.documents.invoice.paper import invoice_context
from tests.documents.invoice.sheets import (
    adjusted,
    credit_note,
    deposit_taken_off,
    forty_lines,
    line,
    sales_invoice,
    sheet,
)


def text(files: InvoiceFiles) -> str:
    """All that the pages say, blanks made plain and lines joined."""
    pages = (page.extract_text() for page in PdfReader(BytesIO(files.pdf)).pages)
    return " ".join(" ".join(pages).replace("\N{NO-BREAK SPACE}", " ").split())


def test_every_line_and_sum_of_the_sheet_stands_on_the_page(forty: InvoiceFiles) -> None:
    words, made = text(forty), forty_lines()

    for item in made.lines:
        assert item.description in words
        assert f"{abs(item.net):,.2f}" in words
    for group in made.sums.tax_groups:
        assert f"€{group.taxable:,.2f}" in words
        assert f"€{group.tax:,.2f}" in words
    assert f"Sum of the lines, net €{made.sums.line_total:,.2f}" in words
    assert f"With tax €{made.sums.gross:,.2f}" in words
    assert f"Pay €{made.sums.due:,.2f}" in words


def test_the_xml_states_the_sums_that_the_page_states(forty: InvoiceFiles) -> None:
    assert forty.xml is not None
    words, root = text(forty), etree.fromstring(forty.xml)
    (totals,) = root.iter(f"{{{RAM}}}SpecifiedTradeSettlementHeaderMonetarySummation")
    stated = {etree.QName(one).localname: Decimal(one.text) for one in totals}

    assert stated["GrandTotalAmount"] == forty_lines().sums.gross
    for name in ("LineTotalAmount", "GrandTotalAmount", "DuePayableAmount"):
        assert f"€{stated[name]:,.2f}" in words


def test_state_and_county_stand_apart_and_come_to_the_tax(sales: InvoiceFiles) -> None:
    words, (_, taxed) = text(sales), sales_invoice().sums.tax_groups

    assert "State 6 % on $563.00 $33.78" in words
    assert "County 1.25 % on $563.00 $7.04" in words
    assert taxed.tax == Decimal("33.78") + Decimal("7.04")
    assert "No tax on $1,392.00: Repair labour is exempt here" in words


def test_a_deposit_by_receipt_is_taken_off_by_its_number(sales: InvoiceFiles) -> None:
    words = text(sales)

    assert "With tax $1,995.82" in words
    assert "Deposit, receipt R-2026-0011, 1 October 2026 \N{MINUS SIGN}$500.00" in words
    assert "Still to pay $1,495.82" in words


def sums_of(made: InvoiceSheet) -> dict[str, str]:
    return {row.label: row.amount for row in invoice_context(made)["sums"]}


def said(made: InvoiceSheet) -> tuple[dict[str, Any], str]:
    """The title strip, and the boxed line about paying."""
    context = invoice_context(made)
    boxed = " ".join(piece for piece, _ in context["pay"]).replace("\N{NO-BREAK SPACE}", " ").strip()
    return dict(context["strip"]), boxed


def test_allowances_and_charges_of_a_document_end_in_the_sum_without_tax() -> None:
    off, on = adjusted("allowance", "12", "standard"), adjusted("charge", "5", "standard")

    rows = sums_of(sheet(draft=Draft(lines=(line(),), adjustments=(off, on), rounding=Decimal("0.40"))))

    assert list(rows.items()) == [
        ("Sum of the lines, net", "€100.00"),
        ("Campaign", "\N{MINUS SIGN}€12.00"),
        ("Packing", "€5.00"),
        ("Without tax", "€93.00"),
        ("VAT 20 % on €93.00", "€18.60"),
        ("With tax", "€111.60"),
        ("Rounding", "€0.40"),
        ("Still to pay", "€112.00"),
    ]


def test_a_deposit_larger_than_the_invoice_is_paid_back_and_bears_no_interest() -> None:
    owed_back = sheet(line(), deposit_taken_off("350"))
    strip, boxed = said(owed_back)

    assert (strip["To pay"], boxed) == ("nothing", "To be paid back: €300.00.")
    assert invoice_context(owed_back)["late"] == ""


def test_an_invoice_of_nothing_says_so() -> None:
    assert said(sheet(line(), deposit_taken_off("100")))[1] == "Nothing to pay."


def test_a_credit_note_says_what_it_takes_back_and_how_it_is_settled() -> None:
    strip, boxed = said(credit_note(line()))

    assert strip["Takes back"] == "I-2026-0042"
    assert boxed == "Credited: €120.00. Taken off I-2026-0042; what was paid on it is paid back."


def test_whom_to_pay_is_said_with_the_account_in_fours_and_the_reference() -> None:
    _, boxed = said(sheet())

    assert boxed == (
        "Pay €120.00 to IE74 QRYW 0001 4200 0001 42, Quarry Row Engines, BIC QRYWIE20, and say I-2026-0042. "
        "Within 14 days, and before the engine leaves the workshop."
    )


@pytest.mark.parametrize(
    ("currency", "decimals", "due"),
    [("HUF", 0, "HUF 1,482"), ("KWD", 3, "KWD 1,481.482"), ("EUR", 2, "€1,481.48")],
)
def test_sums_have_the_decimals_of_their_currency(currency: str, decimals: int, due: str) -> None:
    rows = sums_of(sheet(line("1", "1234.568"), currency=currency, decimals=decimals))

    assert rows["With tax"].replace("\N{NO-BREAK SPACE}", " ") == due
