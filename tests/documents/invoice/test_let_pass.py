"""Wrong documents that the published rules let pass: our own type or rule refuses each of them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.rules import einvoice_faults
from quotes.calc.invoice.values import InvoiceSheet, Sums
from quotes.documents.invoice import invoice_files
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.einvoice_check import findings
from tests.documents.invoice.sheets import line, sheet

PLAIN = sheet()
"""One line of 100.00, 20.00 tax, 120.00 due."""


def summed(**change: Any) -> Sums:
    return Sums(**PLAIN.sums.model_dump() | change)


def with_tax(amount: Decimal) -> InvoiceSheet:
    """Another tax, and all that follows from it."""
    group = PLAIN.sums.tax_groups[0].model_copy(update={"tax": amount})
    gross = PLAIN.sums.net + amount
    return PLAIN.model_copy(update={"sums": summed(tax=amount, gross=gross, due=gross, tax_groups=(group,))})


def test_a_line_that_is_not_quantity_times_price_though_all_sums_follow_it() -> None:
    dearer = sheet(line("1", "101"))
    told = dearer.model_copy(
        update={"lines": (dearer.lines[0].model_copy(update={"unit_price": Decimal(100)}),)}
    )

    assert findings(cii_xml(told)) == ()
    assert [fault.rule for fault in einvoice_faults(told)] == ["BT-131"]


@pytest.mark.parametrize("more", ["0.01", "-0.01", "0.90"])
def test_tax_within_a_unit_of_what_it_comes_to(more: str) -> None:
    wrong = with_tax(Decimal(20) + Decimal(more))

    assert findings(cii_xml(wrong)) == ()
    assert [fault.rule for fault in einvoice_faults(wrong)] == ["BR-CO-17"]


@pytest.mark.parametrize(
    ("rule", "field"),
    [("BR-CO-13", "net"), ("BR-CO-14", "tax"), ("BR-CO-15", "gross"), ("BR-CO-16", "due")],
)
def test_sums_that_do_not_follow_from_each_other_can_be_no_sheet(rule: str, field: str) -> None:
    with pytest.raises(ValidationError, match=rule):
        summed(**{field: getattr(PLAIN.sums, field) + Decimal("0.01")})


def test_what_breaks_a_rule_is_not_drawn() -> None:
    with pytest.raises(EInvoiceFault, match=r"^BR-CO-17: tax S 20 %: 20.01 is stated where 20.00 comes out"):
        invoice_files(with_tax(Decimal("20.01")))
