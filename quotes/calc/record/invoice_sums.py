"""An issued invoice added up again from its lines."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.sums import document_sums, line_net
from quotes.calc.invoice.values import InvoiceSheet, Sums
from quotes.calc.money.tax import UnknownTaxCodeError
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.shop import TaxCode, TaxComponent

TOTALS = (
    "line_total",
    "allowance_total",
    "charge_total",
    "net",
    "tax",
    "gross",
    "prepaid",
    "rounding",
    "due",
)


def invoice_sum_faults(document: str, sheet: InvoiceSheet) -> Iterator[RecordFault]:
    """Lines that are not quantity times price, totals and tax groups that the lines do not come to."""
    for line in sheet.lines:
        stated = Stated(f"net of line {line.number}", line_net(line, sheet.decimals), line.net)
        yield from differing(document, stated)
    try:
        again = _added_up(sheet)
    except (ValueError, UnknownTaxCodeError) as error:
        yield RecordFault(document, "tax of its lines", "that of their codes", error)
        return
    for name in TOTALS:
        words = name.replace("_", " ")
        yield from differing(document, Stated(words, getattr(again, name), getattr(sheet.sums, name)))
    groups = Stated("tax groups", _said(again.tax_groups), _said(sheet.sums.tax_groups))
    yield from differing(document, groups)


def _added_up(sheet: InvoiceSheet) -> Sums:
    """By the rates that the sheet itself states: those of today are nobody's business here."""
    codes = {
        group.code: TaxCode(
            group.code,
            group.category,
            tuple(TaxComponent(name, rate) for name, rate, _ in group.components),
            group.reason,
        )
        for group in sheet.sums.tax_groups
    }
    return document_sums(
        sheet.lines,
        sheet.adjustments,
        codes,
        decimals=sheet.decimals,
        prepaid=_prepaid(sheet),
        rounding=sheet.sums.rounding,
    )


def _prepaid(sheet: InvoiceSheet) -> Decimal:
    return sum((one.amount for one in sheet.prepayments), ZERO)


def _said(groups: tuple[TaxGroup, ...]) -> str:
    said = (f"{one.category} {one.rate_pct:f} % of {one.taxable}: {one.tax}" for one in groups)
    return ", ".join(said) or "none"
