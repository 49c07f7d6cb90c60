"""Invoices to draw: one workshop, one customer, and every value replaceable."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import document_adjustments, document_sums, invoice_lines
from quotes.calc.invoice.values import (
    Account,
    Adjustment,
    Agreed,
    ExtraAgreed,
    InvoiceSheet,
    Late,
    Prepayment,
    Reference,
)
from quotes.calc.sheet.issued_values import Party
from quotes.calc.shop import TaxCode, TaxComponent

ON = date(2026, 11, 25)
VAT_NUMBER = "IE0000142T"
ACCOUNT = Account(iban="IE74QRYW00014200000142", bic="QRYWIE20", name="Quarry Row Engines")
SELLER = Party(
    name="Quarry Row Engines",
    lines=("4 Quarry Row", "70012 Otherby"),
    telephone="+00 70 0142",
    email="desk@quarryrow.example",
    tax_registration=VAT_NUMBER,
)
BUYER = Party(name="Kaja Brenner", lines=("17 Mill Court", "70018 Otherby"), email="kaja@brenner.example")
FIRM = Party(name="Ropewalk Hill-climb Club", lines=("2 Ropewalk",), tax_registration="DE000000977")


def _code(code: str, category: str, rate: str = "0", reason: str = "") -> TaxCode:
    return TaxCode(code, category, (TaxComponent("VAT", Decimal(rate)),), reason)


CODES: Mapping[str, TaxCode] = {
    code.code: code
    for code in (
        _code("standard", "S", "20"),
        _code("reduced", "S", "9.5"),
        _code("zero", "Z"),
        _code("exempt", "E", reason="Repair labour is exempt here"),
        _code("reverse", "AE", reason="Reverse charge"),
        _code("within", "K", reason="Intra-community supply"),
        _code("export", "G", reason="Export outside the union"),
        _code("outside", "O", reason="Outside the scope of tax"),
        TaxCode("sales", "S", (TaxComponent("State", Decimal("6")), TaxComponent("County", Decimal("1.25")))),
    )
}


def line(
    quantity: str = "1", unit_price: str = "100", tax_code: str = "standard", **change: Any
) -> DraftLine:
    fields: dict[str, Any] = {"kind": "part", "description": "Piston ring set", "unit": "set"}
    return DraftLine(
        quantity=Decimal(quantity), unit_price=Decimal(unit_price), tax_code=tax_code, **(fields | change)
    )


def adjusted(kind: Any, amount: str, tax_code: str = "", **change: Any) -> Adjustment:
    reason = "Campaign" if kind == "allowance" else "Packing"
    return Adjustment(kind=kind, amount=Decimal(amount), tax_code=tax_code, **({"reason": reason} | change))


def sheet(*lines: DraftLine, decimals: int = 2, draft: Draft | None = None, **change: Any) -> InvoiceSheet:
    """What issuing these lines, or the whole draft, makes. Every field may be replaced."""
    given = draft or Draft(lines=lines or (line(),))
    priced = invoice_lines(given, CODES, decimals)
    adjustments = document_adjustments(given, CODES, decimals)
    prepaid = sum(given.prepayments.values(), ZERO)
    sums = document_sums(
        priced, adjustments, CODES, decimals=decimals, prepaid=prepaid, rounding=given.rounding
    )
    fields: dict[str, Any] = {
        "kind": "invoice",
        "number": "I-2026-0042",
        "issued_on": ON,
        "due_on": date(2026, 12, 9) if sums.due > ZERO else None,
        "payment_words": "Within 14 days, and before the engine leaves the workshop",
        "supplied_on": date(2026, 11, 20),
        "currency": "EUR",
        "decimals": decimals,
        "tax_style": "value-added-tax",
        "seller": SELLER,
        "seller_country": "IE",
        "buyer": BUYER,
        "buyer_country": "IE",
        "lines": priced,
        "adjustments": adjustments,
        "sums": sums,
        "prepayments": tuple(
            Prepayment(receipt=receipt, on=date(2026, 10, 1), amount=amount)
            for receipt, amount in given.prepayments.items()
        ),
        "account": ACCOUNT,
        "late": Late(rate_pct_a_year=Decimal(8), after_days=14),
    }
    return InvoiceSheet(**(fields | change))


def credit_note(*lines: DraftLine, **change: Any) -> InvoiceSheet:
    fields: dict[str, Any] = {
        "kind": "credit_note",
        "number": "C-2026-0003",
        "due_on": None,
        "payment_words": "Taken off I-2026-0042; what was paid on it is paid back",
        "preceding": (Reference(kind="invoice", number="I-2026-0042", issued_on=ON),),
        "reason": "One set came back unused",
    }
    return sheet(*lines, **(fields | change))


def deposit_invoice(amount: str = "1250", tax_code: str = "standard", **change: Any) -> InvoiceSheet:
    asked = line("1", amount, tax_code, kind="deposit", description="Deposit on Q-2026-0017", unit="sum")
    return sheet(asked, **({"kind": "deposit_invoice", "number": "D-2026-0007"} | change))


def deposit_taken_off(amount: str, tax_code: str = "standard") -> DraftLine:
    return line(
        "-1",
        amount,
        tax_code,
        kind="deposit",
        key=f"deposit:D-2026-0007:{tax_code}",
        description="Deposit D-2026-0007 taken off",
        unit="sum",
    )


AGREED = Agreed(
    quote="Q-2026-0017",
    revision=2,
    option="Refresh",
    accepted_by="Kaja Brenner",
    accepted_on=date(2026, 9, 14),
    gross=Decimal("9400.00"),
    limit_sum=Decimal("500.00"),
    extra_work=(
        ExtraAgreed(
            number="1",
            words="Weld and line-bore the third main",
            gross=Decimal("612.00"),
            accepted_by="Kaja Brenner",
            accepted_on=date(2026, 10, 20),
        ),
    ),
)


def build_lines() -> Iterable[DraftLine]:
    """Forty lines of a build: hours, parts, machine work, an own part, a core, a discount, a deposit."""
    for number in range(12):
        yield line(
            f"{number + 1}.25", "82.50", kind="labour", unit="h", description=f"Bench step {number + 1}"
        )
    for number in range(16):
        price = f"{23 + 7 * number}.{number:02d}"
        yield line(f"{number % 4 + 1}", price, description=f"Part of row {number + 1}", unit="piece")
    for number in range(5):
        yield line(
            "1", f"{140 + 12 * number}.5", "reduced", kind="machine_work", description=f"Cut {number + 1}"
        )
    yield line("2", "45", description="Valve springs", unit="set", own_part=True, note="Yours; fitted")
    yield line("3.5", "11.90", kind="consumables", unit="litre", description="Assembly oil")
    yield line("1", "140", "zero", kind="core", unit="piece", description="Core charge, crankshaft")
    yield line("-1", "140", "zero", kind="core", unit="piece", description="Core returned, crankshaft")
    yield line("1", "38", kind="freight", unit="piece", description="Freight of the crate")
    discount = adjusted("allowance", "20", percent=Decimal(10), base=Decimal(200))
    yield line("100", "2", price_base=Decimal(1), description="Studs", unit="piece", adjustments=(discount,))
    yield deposit_taken_off("1250")


def forty_lines(**change: Any) -> InvoiceSheet:
    before = Reference(kind="deposit_invoice", number="D-2026-0007", issued_on=date(2026, 9, 20))
    fields: dict[str, Any] = {
        "engine_name": "600 cm³ inline four",
        "engine_number": "H4-31870",
        "service_in_words": "6,600 km of sprint racing",
        "agreed": AGREED,
        "preceding": (before,),
        "supplied_from": date(2026, 10, 5),
        "terms": ("Parts stay ours until they are paid.",),
    }
    return sheet(*build_lines(), **(fields | change))


def sales_invoice(**change: Any) -> InvoiceSheet:
    """Of a workshop with sales tax: labour exempt, state and county on parts, a deposit by receipt."""
    lines = (
        line("14.5", "96", "exempt", kind="labour", unit="h", description="Take down, measure, assemble"),
        line("4", "61.15", "sales", description="Piston ring set"),
        line("1", "318.40", "sales", description="Main bearing set"),
    )
    draft = Draft(lines=lines, prepayments={"R-2026-0011": Decimal("500.00")})
    seller = SELLER.model_copy(update={"tax_registration": "00-0000142"})
    fields: dict[str, Any] = {
        "currency": "USD",
        "tax_style": "sales-tax",
        "seller": seller,
        "account": Account(),
        "engine_name": "88 cubic inch V-twin",
        "engine_number": "V2-0815",
        "paper": "Letter",
    }
    return sheet(draft=draft, **(fields | change))
