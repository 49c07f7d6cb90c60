"""Whatever a workshop invoices, schema and the published rules find nothing in its XML."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lxml import etree  # type: ignore[import-untyped]

from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.rules import einvoice_faults
from quotes.calc.invoice.values import Adjustment, InvoiceSheet
from quotes.documents.invoice.cii import RAM, cii_xml
from quotes.documents.invoice.einvoice_check import findings
from tests.documents.invoice.sheets import CODES, FIRM, credit_note, deposit_taken_off, line, sheet

SEEN = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
"""A busy machine is no fault of a document."""
CURRENCIES = st.sampled_from([("EUR", 2), ("SEK", 2), ("HUF", 0), ("JPY", 0)])
ALONE = frozenset({"outside"})
"""May stand with no other category."""
MIXED = sorted(CODES.keys() - ALONE - {"sales"})
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=60).filter(
    lambda words: words.strip() != ""
)
QUANTITIES = st.integers(-5_000, 500_000).filter(bool).map(lambda number: Decimal(number).scaleb(-3))
PRICES = st.integers(0, 50_000_000).map(lambda number: Decimal(number).scaleb(-4))
BASES = st.sampled_from([Decimal(1), Decimal(1), Decimal(10), Decimal(100)])
UNITS = st.sampled_from(["h", "set", "piece", "litre", "job", "cylinder", "kg"])


@st.composite
def adjustments(draw: st.DrawFn, decimals: int, tax_code: str = "") -> Adjustment:
    amount = Decimal(draw(st.integers(0, 9_999))).scaleb(-decimals)
    of = draw(st.sampled_from([None, Decimal(5), Decimal("2.5")]))
    return Adjustment(
        kind=draw(st.sampled_from(["allowance", "charge"])),
        amount=amount,
        reason=draw(st.sampled_from(["", "Campaign", "Packing"])),
        percent=of,
        base=None if of is None else Decimal(draw(st.integers(0, 99_999))).scaleb(-decimals),
        tax_code=tax_code,
    )


@st.composite
def lines(draw: st.DrawFn, decimals: int, codes: list[str]) -> DraftLine:
    return line(
        tax_code=draw(st.sampled_from(codes)),
        description=draw(WORDS),
        note=draw(st.sampled_from(["", "As agreed by telephone"])),
        unit=draw(UNITS),
        price_base=draw(BASES),
        adjustments=tuple(draw(st.lists(adjustments(decimals), max_size=2))),
    ).model_copy(update={"quantity": draw(QUANTITIES), "unit_price": draw(PRICES)})


@st.composite
def drafts(draw: st.DrawFn, decimals: int) -> Draft:
    codes = draw(st.sampled_from([MIXED, MIXED, MIXED, sorted(ALONE)]))
    on_all = st.sampled_from(codes).flatmap(lambda code: adjustments(decimals, code))
    made = draw(st.lists(lines(decimals, codes), min_size=1, max_size=6))
    used = {each.tax_code for each in made}
    if draw(st.booleans()):
        amount = Decimal(draw(st.integers(1, 90_000))).scaleb(-decimals)
        made.append(deposit_taken_off(str(amount), min(used)))
    unit = Decimal(1).scaleb(-decimals)
    return Draft(
        lines=tuple(made),
        adjustments=tuple(each for each in draw(st.lists(on_all, max_size=3)) if each.tax_code in used),
        prepayments={"R-2026-0009": draw(st.integers(0, 100_000)) * unit},
        rounding=draw(st.integers(-50, 50)) * unit,
    )


@st.composite
def sheets(draw: st.DrawFn) -> InvoiceSheet:
    currency, decimals = draw(CURRENCIES)
    draft = draw(drafts(decimals))
    abroad: dict[str, Any] = {"buyer": FIRM, "buyer_country": "DE"}
    make: Callable[..., InvoiceSheet] = draw(st.sampled_from([sheet, sheet, credit_note]))
    return make(draft=draft, decimals=decimals, currency=currency, **abroad)


@given(sheets())
@SEEN
def test_no_document_breaks_a_published_rule_or_ours(made: InvoiceSheet) -> None:
    assert [str(fault) for fault in einvoice_faults(made)] == []
    assert findings(cii_xml(made)) == ()


TOTALS = {
    "LineTotalAmount": "line_total",
    "AllowanceTotalAmount": "allowance_total",
    "ChargeTotalAmount": "charge_total",
    "TaxBasisTotalAmount": "net",
    "TaxTotalAmount": "tax",
    "GrandTotalAmount": "gross",
    "TotalPrepaidAmount": "prepaid",
    "RoundingAmount": "rounding",
    "DuePayableAmount": "due",
}


@given(sheets())
@SEEN
def test_the_xml_says_the_sums_of_the_sheet_to_the_last_digit(made: InvoiceSheet) -> None:
    root = etree.fromstring(cii_xml(made))
    (totals,) = root.iter(f"{{{RAM}}}SpecifiedTradeSettlementHeaderMonetarySummation")
    for element, field in TOTALS.items():
        told = totals.findtext(f"{{{RAM}}}{element}") or "0"
        assert Decimal(told) == getattr(made.sums, field), element
    nets = [
        Decimal(item.findtext(f".//{{{RAM}}}LineTotalAmount"))
        for item in root.iter(f"{{{RAM}}}IncludedSupplyChainTradeLineItem")
    ]
    assert nets == [each.net for each in made.lines]
    settlement = root.find(f".//{{{RAM}}}ApplicableHeaderTradeSettlement")
    groups = [
        (Decimal(tax.findtext(f"{{{RAM}}}BasisAmount")), Decimal(tax.findtext(f"{{{RAM}}}CalculatedAmount")))
        for tax in settlement.findall(f"{{{RAM}}}ApplicableTradeTax")
    ]
    assert groups == [(group.taxable, group.tax) for group in made.sums.tax_groups]
