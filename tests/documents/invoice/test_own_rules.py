"""Each rule that something set or typed can break, with the field that mends it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.rules import einvoice_faults, refuse_unfit_sheet
from quotes.calc.invoice.values import InvoiceSheet
from tests.documents.invoice.sheets import BUYER, FIRM, SELLER, adjusted, line, sheet

CUSTOMERS, WORKSHOPS = "tax number of the customer", "tax number of the workshop"


def seller(**change: str) -> dict[str, Any]:
    return {"seller": SELLER.model_copy(update=change)}


def buyer(**change: str) -> dict[str, Any]:
    return {"buyer": BUYER.model_copy(update=change)}


def with_line(**change: Any) -> InvoiceSheet:
    made = sheet()
    return made.model_copy(update={"lines": (made.lines[0].model_copy(update=change),)})


def with_group(code: str = "standard", **change: Any) -> InvoiceSheet:
    made = sheet(line(tax_code=code))
    group = made.sums.tax_groups[0].model_copy(update=change)
    return made.model_copy(update={"sums": made.sums.model_copy(update={"tax_groups": (group,)})})


def fine(**change: Any) -> InvoiceSheet:
    made = sheet()
    return made.model_copy(update={"sums": made.sums.model_copy(update=change)})


def on_document(kind: str, amount: str, **change: Any) -> InvoiceSheet:
    made = sheet(draft=Draft(lines=(line(),), adjustments=(adjusted(kind, "1.5", "standard"),)))
    one = made.adjustments[0].model_copy(update={"amount": Decimal(amount), **change})
    return made.model_copy(update={"adjustments": (one,)})


FINE = Decimal("0.005")
BROKEN: list[tuple[InvoiceSheet, str, str]] = [
    (sheet(**seller(name=" ")), "BR-06", "name of the workshop"),
    (sheet(**buyer(name="")), "BR-07", "name of the customer"),
    (sheet(seller_country=""), "BR-09", "country of the workshop"),
    (sheet(buyer_country=""), "BR-11", "country of the customer"),
    (sheet(seller_country="XX"), "BR-CL-14", "country of the workshop"),
    (sheet(buyer_country="ie"), "BR-CL-14", "country of the customer"),
    (sheet(**seller(tax_registration="")), "BR-CO-26", WORKSHOPS),
    (sheet(**seller(tax_registration="XX000")), "BR-CO-09", WORKSHOPS),
    (sheet(**buyer(tax_registration="XX000")), "BR-CO-09", CUSTOMERS),
    (sheet(line(tax_code="reverse")), "BR-AE-02", CUSTOMERS),
    (sheet(line(tax_code="within"), **buyer(tax_registration="142")), "BR-IC-02", CUSTOMERS),
    (sheet(line(tax_code="within"), buyer=FIRM, **seller(tax_registration="142")), "BR-IC-02", WORKSHOPS),
    (sheet(line(tax_code="export"), **seller(tax_registration="142")), "BR-G-02", WORKSHOPS),
    (sheet().model_copy(update={"lines": ()}), "BR-16", "lines"),
    (with_line(description=" "), "BR-25", "line 1"),
    (with_line(unit_price=Decimal(-100), quantity=Decimal(-1)), "BR-27", "price of line 1"),
    (with_line(quantity=Decimal(2)), "BT-131", "line 1"),
    (with_line(net=Decimal("100.001")), "BR-DEC-23", "line 1"),
    (with_group(reason=" ", code="exempt"), "BR-E-10", "tax code exempt"),
    (with_group(rate_pct=Decimal(5), code="exempt"), "BR-E-05", "tax code exempt"),
    (with_group(rate_pct=Decimal(5), code="outside"), "BR-O-05", "tax code outside"),
    (with_group(rate_pct=Decimal(0)), "BR-S-05", "tax code standard"),
    (with_group(category="Q"), "BR-CO-18", "tax code standard"),
    (with_group(tax=Decimal("20.01")), "BR-CO-17", "tax S 20 %"),
    (with_group(taxable=Decimal("100.02")), "BR-S-08", "net of tax S 20 %"),
    (sheet(line(), line(tax_code="outside")), "BR-O-11", "lines"),
    (fine(line_total=Decimal(101)), "BR-CO-10", "sum of the lines"),
    (fine(allowance_total=Decimal(1)), "BR-CO-11", "allowances"),
    (fine(charge_total=Decimal(1)), "BR-CO-12", "charges"),
    (fine(net=FINE), "BR-DEC-12", "sum without tax"),
    (fine(tax=FINE), "BR-DEC-13", "tax"),
    (fine(gross=FINE), "BR-DEC-14", "sum with tax"),
    (fine(prepaid=FINE), "BR-DEC-16", "paid before"),
    (fine(rounding=FINE), "BR-DEC-17", "rounding"),
    (fine(due=FINE), "BR-DEC-18", "amount due"),
    (on_document("allowance", "1.505"), "BR-DEC-01", "allowance"),
    (on_document("charge", "1.505"), "BR-DEC-05", "charge"),
    (on_document("allowance", "1.5", base=FINE), "BR-DEC-02", "allowance"),
    (sheet(due_on=None, payment_words=""), "BR-CO-25", "payment terms"),
    (sheet(line(description="Ring\x0bset")), "XML", "line 1"),
    (sheet(**buyer(email="a\x1fb")), "XML", "e-mail of the customer"),
    (sheet(notes=("Half a \ud800 pair",)), "XML", "notes"),
]


@pytest.mark.parametrize(("broken", "rule", "field"), BROKEN, ids=[f"{rule} {at}" for _, rule, at in BROKEN])
def test_a_rule_that_is_broken_names_itself_and_the_field(
    broken: InvoiceSheet, rule: str, field: str
) -> None:
    assert (rule, field) in [(fault.rule, fault.field) for fault in einvoice_faults(broken)]


def test_the_first_fault_is_raised_with_rule_field_and_what_is_wrong() -> None:
    with pytest.raises(EInvoiceFault, match=r"^BR-07: name of the customer: is empty: put it in"):
        refuse_unfit_sheet(sheet(**buyer(name="")))


def test_a_sound_sheet_is_let_pass() -> None:
    refuse_unfit_sheet(sheet())
