"""Plain documents to sum up: two taxes, lines with every value replaceable, and sheets made of drafts."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import document_adjustments, document_sums, invoice_lines
from quotes.calc.invoice.values import Agreed, InvoiceSheet, Kind, Prepayment, Reference
from quotes.calc.sheet.issued_values import Party
from quotes.calc.shop import TaxCode, TaxComponent

ON = date(2026, 5, 4)
STANDARD = TaxCode("standard", "S", (TaxComponent("VAT", Decimal(20)),))
REDUCED = TaxCode("reduced", "S", (TaxComponent("VAT", Decimal(7)),))
EXEMPT = TaxCode("exempt", "E", (TaxComponent("VAT", ZERO),), "Repair labour stated apart is not taxed.")
SALES = TaxCode("sales", "S", (TaxComponent("State", Decimal("6")), TaxComponent("Local", Decimal("1.25"))))
CODES: Mapping[str, TaxCode] = {code.code: code for code in (STANDARD, REDUCED, EXEMPT, SALES)}
SELLER = Party(name="Sorrel Yard Engines", lines=("4 Sorrel Yard",), tax_registration="XX000")
BUYER = Party(name="Marel Otten", lines=("9 Quince Lane",))


def with_rate(code: TaxCode, rate: str) -> dict[str, TaxCode]:
    """All codes, one of them at another rate from now on."""
    return {**CODES, code.code: TaxCode(code.code, code.category, (TaxComponent("VAT", Decimal(rate)),))}


def draft_line(
    quantity: str = "1", unit_price: str = "100.00", tax_code: str = "standard", **change: Any
) -> DraftLine:
    fields: dict[str, Any] = {"kind": "part", "description": "Piston ring set", "unit": "set"}
    return DraftLine(
        quantity=Decimal(quantity), unit_price=Decimal(unit_price), tax_code=tax_code, **(fields | change)
    )


def sheet(
    draft: Draft, codes: Mapping[str, TaxCode] = CODES, decimals: int = 2, **change: Any
) -> InvoiceSheet:
    """The draft as it would be issued."""
    lines = invoice_lines(draft, codes, decimals)
    adjustments = document_adjustments(draft, codes, decimals)
    fields: dict[str, Any] = {
        "kind": "invoice",
        "number": "I-2026-0001",
        "issued_on": ON,
        "due_on": ON,
        "payment_words": "Before the engine leaves the workshop",
        "supplied_on": ON,
        "currency": "EUR",
        "decimals": decimals,
        "tax_style": "value-added-tax",
        "seller": SELLER,
        "seller_country": "DE",
        "buyer": BUYER,
        "buyer_country": "DE",
        "lines": lines,
        "adjustments": adjustments,
        "prepayments": tuple(
            Prepayment(receipt=receipt, on=ON, amount=amount) for receipt, amount in draft.prepayments.items()
        ),
        "sums": document_sums(
            lines,
            adjustments,
            codes,
            decimals=decimals,
            prepaid=sum(draft.prepayments.values(), ZERO),
            rounding=draft.rounding,
        ),
    }
    return InvoiceSheet(**(fields | change))


def credit_of(original: InvoiceSheet, draft: Draft, number: str = "C-2026-0001") -> InvoiceSheet:
    """The credit note on a document; the rates of the day are others, for it must not ask for them."""
    before = Reference(kind=original.kind, number=original.number, issued_on=original.issued_on)
    later = with_rate(STANDARD, "21")
    return sheet(draft, later, original.decimals, kind="credit_note", number=number, preceding=(before,))


def deposit_invoice(draft: Draft, number: str = "D-2026-0001", **change: Any) -> InvoiceSheet:
    kind: Kind = "deposit_invoice"
    return sheet(draft, kind=kind, number=number, **change)


def agreed(gross: str, limit_sum: str = "0", **change: Any) -> Agreed:
    fields: dict[str, Any] = {
        "quote": "Q-2026-0001",
        "revision": 1,
        "option": "Refresh",
        "accepted_by": "Marel Otten",
        "accepted_on": ON,
    }
    return Agreed(gross=Decimal(gross), limit_sum=Decimal(limit_sum), **(fields | change))


def said(*figures: Decimal) -> str:
    """Figures without trailing noughts: `70 14 0.7`."""
    return " ".join(f"{figure.normalize() + ZERO:f}" for figure in figures)
