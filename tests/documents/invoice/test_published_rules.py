"""What the published rules find: nothing in our documents, and something in each that was spoiled by hand."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.rules import einvoice_faults
from quotes.calc.invoice.values import Account, InvoiceSheet
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.einvoice_check import (
    PROFILE_RULES,
    NotAnInvoice,
    findings,
)
from tests.documents.invoice.sheets import (
    FIRM,
    SELLER,
    adjusted,
    credit_note,
    deposit_invoice,
    deposit_taken_off,
    forty_lines,
    line,
    sheet,
)

ABROAD: dict[str, Any] = {"buyer": FIRM, "buyer_country": "DE"}
UNREGISTERED: dict[str, Any] = {"seller": SELLER.model_copy(update={"tax_registration": "0000142"})}

SOUND: dict[str, Callable[[], InvoiceSheet]] = {
    "one line": sheet,
    "a build of forty lines": forty_lines,
    "credit note": lambda: credit_note(line("2", "49.95")),
    "deposit invoice": deposit_invoice,
    "two rates": lambda: sheet(line("3", "33.33"), line("7", "9.99", "reduced")),
    "zero rated": lambda: sheet(line(tax_code="zero"), line()),
    "labour exempt, parts taxed": lambda: sheet(line(tax_code="exempt", kind="labour", unit="h"), line()),
    "reverse charge": lambda: sheet(line(tax_code="reverse"), **ABROAD),
    "within the union": lambda: sheet(line(tax_code="within"), **ABROAD),
    "export": lambda: sheet(line(tax_code="export"), buyer_country="NO"),
    "outside the scope": lambda: sheet(line(tax_code="outside"), **UNREGISTERED),
    "a line returned": lambda: sheet(line("4", "80"), line("-1", "80")),
    "nothing to pay": lambda: sheet(line("1", "100"), deposit_taken_off("100")),
    "owed back": lambda: sheet(line("1", "100"), deposit_taken_off("350")),
    "paid before, without tax": lambda: sheet(
        draft=Draft(lines=(line("1", "900"),), prepayments={"R-2026-0004": Decimal("500")})
    ),
    "paid before, more than is due": lambda: sheet(
        draft=Draft(lines=(line("1", "100"),), prepayments={"R-2026-0004": Decimal("500")})
    ),
    "rounded": lambda: sheet(draft=Draft(lines=(line("1", "10.02"),), rounding=Decimal("-0.02"))),
    "allowance and charge on a line": lambda: sheet(
        line("4", "25", adjustments=(adjusted("allowance", "10"), adjusted("charge", "2.50")))
    ),
    "allowance and charge on the document": lambda: sheet(
        draft=Draft(
            lines=(line("4", "250"), line("1", "90", "reduced")),
            adjustments=(adjusted("allowance", "50", "standard"), adjusted("charge", "12", "reduced")),
        )
    ),
    "price of a hundred": lambda: sheet(line("37", "412.5", price_base=Decimal(100))),
    "price of four decimals": lambda: sheet(line("12", "0.0833")),
    "no decimals": lambda: sheet(line("3", "12500"), currency="HUF", decimals=0),
    "no account": lambda: sheet(account=Account()),
    "no address": lambda: sheet(buyer=FIRM.model_copy(update={"lines": ()})),
    "letters of other scripts, and those that XML reserves": lambda: sheet(
        line(description="Stößel & <Schlepphebel> „Nocke“ Ω ø 12,5")
    ),
}


@pytest.mark.parametrize("document", SOUND.values(), ids=SOUND.keys())
def test_schema_and_rules_find_nothing(document: Callable[[], InvoiceSheet]) -> None:
    assert findings(cii_xml(document())) == ()


def rules(xml: str) -> dict[str, set[str]]:
    """The rules that the sheet finds broken."""
    told: dict[str, set[str]] = {PROFILE_RULES: set()}
    for finding in findings(xml.encode()):
        told.setdefault(finding.found_by, set()).add(finding.rule)
    return told


def plain() -> str:
    """Two lines, 385.00 net, 77.00 tax, 462.00 due."""
    return cii_xml(sheet(line("2.5", "90"), line("4", "40"))).decode()


SPOILED = {
    "a line's net by one": ("<ram:LineTotalAmount>160.00<", "<ram:LineTotalAmount>161.00<", "BR-CO-10"),
    "the sum of lines by one": ("<ram:LineTotalAmount>385.00<", "<ram:LineTotalAmount>386.00<", "BR-CO-10"),
    "the net by one": ("TaxBasisTotalAmount>385.00<", "TaxBasisTotalAmount>386.00<", "BR-CO-13"),
    "the tax by a hundredth": ('currencyID="EUR">77.00<', 'currencyID="EUR">77.01<', "BR-CO-15"),
    "the tax of a rate by more than one": ("CalculatedAmount>77.00<", "CalculatedAmount>78.01<", "BR-S-09"),
    "the amount due": ("<ram:DuePayableAmount>462.00<", "<ram:DuePayableAmount>46.20<", "BR-CO-16"),
    "no buyer's name": ("<ram:Name>Kaja Brenner</ram:Name>", "<ram:Name></ram:Name>", "BR-07"),
    "three decimals": ("<ram:DuePayableAmount>462.00<", "<ram:DuePayableAmount>462.000<", "BR-DEC-18"),
    "outside the scope, with a rate": ("<ram:CategoryCode>S<", "<ram:CategoryCode>O<", "BR-O-05"),
    "a price below nought": ("<ram:ChargeAmount>40<", "<ram:ChargeAmount>-40<", "BR-27"),
    "a country that there is not": ("<ram:CountryID>IE<", "<ram:CountryID>XX<", ""),
}


@pytest.mark.parametrize(("before", "after", "rule"), SPOILED.values(), ids=SPOILED.keys())
def test_the_rules_find_what_was_spoiled(before: str, after: str, rule: str) -> None:
    xml = plain()
    assert before in xml
    for found_by, broken in rules(xml.replace(before, after)).items():
        assert broken, found_by
        assert not rule or rule in broken, (found_by, broken)


def test_that_no_day_and_no_terms_are_told_is_not_found_so_our_own_rule_must() -> None:
    """BR-CO-25 stands in the standard, and not in the sheet."""
    terms = r"<ram:SpecifiedTradePaymentTerms>.*?</ram:SpecifiedTradePaymentTerms>"
    assert findings(re.sub(terms, "", plain(), flags=re.DOTALL).encode()) == ()
    silent = sheet(due_on=None, payment_words="")
    assert "BR-CO-25" in {fault.rule for fault in einvoice_faults(silent)}


def test_tax_off_within_one_unit_is_not_found_so_our_own_check_must() -> None:
    """What the standard's rule lets pass: tax 0.90 too much, with all totals moved along."""
    moved = plain()
    for before, after in ((">77.00<", ">77.90<"), (">462.00<", ">462.90<")):
        moved = moved.replace(before, after)
    assert findings(moved.encode()) == ()


def test_a_net_that_is_not_quantity_times_price_is_not_found_either() -> None:
    assert findings(plain().replace("<ram:ChargeAmount>40<", "<ram:ChargeAmount>41<").encode()) == ()


def test_a_file_that_breaks_the_schema_is_named_with_its_line() -> None:
    (finding,) = findings(plain().replace("ram:DuePayableAmount", "ram:Due").encode())
    assert finding.rule == "XSD"
    assert re.match(r"line \d+: .*Due", finding.text)


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"no xml at all", "is no XML"), (b"<Order/>", "XML of another kind"), (b"", "is no XML")],
)
def test_what_is_no_invoice_is_said_so(content: bytes, said: str) -> None:
    with pytest.raises(NotAnInvoice, match=said):
        findings(content)


def test_a_file_with_a_document_type_of_its_own_is_not_looked_into() -> None:
    outside = '<!DOCTYPE a [<!ENTITY e SYSTEM "file:///etc/hostname">]>'
    xml = plain().replace("?>", "?>" + outside, 1).replace("Kaja Brenner", "&e;")
    with pytest.raises(NotAnInvoice, match="document type"):
        findings(xml.encode())
