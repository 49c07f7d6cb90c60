"""Rules of EN 16931 that somebody can break by what is set or typed, each with the field to mend.

The published validators find them too, but name places in a file that no user has seen. What our own sums
keep by construction (BR-CO-10 to BR-CO-17) is not asked again here.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.values import InvoiceSheet

UNTAXED = frozenset({"E", "AE", "K", "G", "O"})
"""Categories that need a reason why nothing is charged (BR-E-10, BR-AE-10, BR-IC-10, BR-G-10, BR-O-10)."""
PREFIX = {"E": "E", "AE": "AE", "K": "IC", "G": "G", "O": "O", "S": "S", "Z": "Z"}
"""How the standard names the rules of a category."""


def refuse_unfit_sheet(sheet: InvoiceSheet) -> None:
    """Raise the first EInvoiceFault of a sheet, if it has one."""
    for fault in einvoice_faults(sheet):
        raise fault


def einvoice_faults(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """Every rule that the sheet breaks."""
    yield from _parties(sheet)
    yield from _categories(sheet)
    yield from _amounts(sheet)
    if sheet.sums.due > ZERO and sheet.due_on is None and not sheet.payment_words:
        yield EInvoiceFault("BR-CO-25", "payment terms", "say by when it is to be paid, in days or in words")


def _parties(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    if not sheet.seller.name.strip():
        yield EInvoiceFault("BR-6", "name of the workshop", "is empty: put it in on the settings page")
    if not sheet.buyer.name.strip():
        yield EInvoiceFault("BR-7", "name of the customer", "is empty: put it in on the customer's page")
    if len(sheet.seller_country) != 2:
        yield EInvoiceFault(
            "BR-9", "country of the workshop", "is missing: two letters, on the books' settings"
        )
    if len(sheet.buyer_country) != 2:
        yield EInvoiceFault("BR-11", "country of the customer", "is missing: two letters, such as IE")
    registered = sheet.seller.tax_registration
    if any(line.category != "O" for line in sheet.lines) and not registered:
        yield EInvoiceFault(
            "BR-S-2", "tax number of the workshop", "is missing: it goes on the settings page"
        )
    if _taxed(sheet) and registered and not _has_prefix(registered):
        yield EInvoiceFault(
            "BR-CO-9",
            "tax number of the workshop",
            f"{registered}: begins with its country, such as IE",
        )


def _taxed(sheet: InvoiceSheet) -> bool:
    return sheet.tax_style == "value-added-tax"


def _has_prefix(number: str) -> bool:
    return len(number) > 2 and number[:2].isalpha() and number[:2].isupper()


def _categories(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    categories = {group.category for group in sheet.sums.tax_groups}
    if "O" in categories and len(categories) > 1:
        yield EInvoiceFault("BR-O-11", "tax codes", "outside the scope (O) stands beside no other category")
    for group in sheet.sums.tax_groups:
        name = PREFIX.get(group.category, group.category)
        if group.category != "S" and group.rate_pct:
            yield EInvoiceFault(
                f"BR-{name}-5",
                f"tax code {group.code}",
                f"{group.category} bears no rate: {group.rate_pct}",
            )
        if group.category in UNTAXED and not group.reason:
            yield EInvoiceFault(
                f"BR-{name}-10", f"tax code {group.code}", "say why nothing is charged, on the settings page"
            )
        if group.category == "S" and not group.rate_pct:
            yield EInvoiceFault("BR-S-5", f"tax code {group.code}", "the standard rate is above nought")
    for category in sorted(categories & {"AE", "K"}):
        if not _has_prefix(sheet.buyer.tax_registration):
            text = "is needed here, and begins with its country"
            yield EInvoiceFault(f"BR-{PREFIX[category]}-2", "tax number of the customer", text)


def _amounts(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    for line in sheet.lines:
        if line.unit_price < ZERO:
            yield EInvoiceFault("BR-27", f"price of line {line.number}", f"{line.unit_price} is below nought")
        if _too_fine(line.net, sheet.decimals):
            text = f"{line.net} has more than {sheet.decimals} decimals"
            yield EInvoiceFault("BR-DEC-23", f"line {line.number}", text)
    sums = sheet.sums
    for rule, field, amount in (
        ("BR-DEC-9", "sum of the lines", sums.line_total),
        ("BR-DEC-12", "sum without tax", sums.net),
        ("BR-DEC-13", "tax", sums.tax),
        ("BR-DEC-14", "sum with tax", sums.gross),
        ("BR-DEC-18", "amount due", sums.due),
    ):
        if _too_fine(amount, sheet.decimals):
            yield EInvoiceFault(rule, field, f"{amount} has more than {sheet.decimals} decimals")


def _too_fine(amount: Decimal, decimals: int) -> bool:
    return round_half_up(amount, decimals) != amount
