"""Documents that few workshops issue and the published rules have an opinion on: nothing is found in them."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

import pytest

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.rules import einvoice_faults
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.einvoice_check import findings
from tests.documents.invoice.sheets import BUYER, FIRM, SELLER, adjusted, credit_note, line, sheet

LOCAL = "142/0042"
"""A tax number that begins with no country."""


def registered(seller: str, buyer: str = "", tax_code: str = "standard") -> InvoiceSheet:
    return sheet(
        line(tax_code=tax_code),
        seller=SELLER.model_copy(update={"tax_registration": seller}),
        buyer=BUYER.model_copy(update={"tax_registration": buyer}),
    )


def taxed(*codes: str) -> InvoiceSheet:
    """To a customer in another country with a tax number."""
    return sheet(*(line(tax_code=code) for code in codes), buyer=FIRM, buyer_country="DE")


ODD: Mapping[str, InvoiceSheet] = {
    "a credit note that takes back a discount": credit_note(line("-1")),
    "a line at nothing": sheet(line("1", "0")),
    "a part that the customer brought": sheet(line(own_part=True)),
    "four taxes": taxed("standard", "reduced", "zero", "exempt"),
    "reverse charge beside the standard rate": taxed("reverse", "standard"),
    "outside the scope, to one with a number": taxed("outside"),
    "outside the scope, with local numbers": registered(LOCAL, LOCAL, "outside"),
    "outside the scope, with numbers of value-added tax": registered("IE0000142T", "DE000000977", "outside"),
    "local numbers of both": registered(LOCAL, LOCAL),
    "a Greek number": registered("EL000000142"),
    "a charge at a rate that no line has": sheet(
        draft=Draft(lines=(line(),), adjustments=(adjusted("charge", "5", "reduced"),))
    ),
    "an allowance of nothing": sheet(
        draft=Draft(lines=(line(),), adjustments=(adjusted("allowance", "0", "standard"),))
    ),
    "a percentage that says how it was worked out": sheet(
        line("3", "40", adjustments=(adjusted("allowance", "12", percent=Decimal(10), base=Decimal(120)),))
    ),
    "an address of five lines": sheet(buyer=BUYER.model_copy(update={"lines": tuple("abcde")})),
    "an account outside the euro": sheet(currency="USD"),
    "nothing to pay and no terms": sheet(line("1"), line("-1"), payment_words=""),
}


@pytest.mark.parametrize("odd", ODD.values(), ids=ODD)
def test_neither_the_published_rules_nor_ours_find_anything(odd: InvoiceSheet) -> None:
    assert [str(fault) for fault in einvoice_faults(odd)] == []
    assert findings(cii_xml(odd)) == ()
