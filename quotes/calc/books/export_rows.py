"""The rows of the accounts' workbook: what one posted entry, open item or deposit puts on which sheet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.books.export import (
    Cells,
    ExportEntry,
    HeldAsOf,
    IssuedDocument,
    OpenAsOf,
    PaidDocument,
    SheetName,
)
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet

KINDS = {"deposit_invoice": "deposit invoice", "invoice": "invoice", "credit_note": "credit note"}
Row = tuple[SheetName, Cells]


def entry_rows(entry: ExportEntry, decimals: int) -> Iterator[Row]:
    """All rows of one entry. Sums of a credit note are negative here: a column can be added up."""
    if entry.invoice is not None and entry.invoice.sheet is not None:
        yield "Sales journal", _sale(entry.invoice, entry.invoice.sheet)
        for cells in _lines(entry.invoice, entry.invoice.sheet):
            yield "Lines", cells
    if entry.payment is not None:
        yield "Payments", _payment(entry.payment, decimals)
    for cells in journal_cells(entry, decimals):
        yield "Journal", cells


def journal_cells(entry: ExportEntry, decimals: int) -> Iterator[Cells]:
    """One row for each line of the entry; the same stand in the flat file."""
    for line in entry.lines:
        yield (
            entry.pk,
            entry.on,
            entry.source.replace("_", " "),
            entry.number,
            entry.party,
            line.account,
            line.account_name,
            round_half_up(line.debit, decimals),
            round_half_up(line.credit, decimals),
            line.text or entry.text,
            line.tax_code,
            line.rate_pct,
            line.build,
        )


def open_cells(item: OpenAsOf, on: date, decimals: int) -> Cells:
    """`on`: the day that the days late are counted to."""
    late = (on - item.due_on).days if item.due_on and item.open_amount > ZERO else 0
    return (
        item.on,
        item.number,
        item.kind.replace("_", " "),
        item.customer,
        item.build,
        item.due_on,
        round_half_up(item.amount, decimals),
        round_half_up(item.open_amount, decimals),
        max(late, 0),
    )


def held_cells(held: HeldAsOf, decimals: int) -> Cells:
    return held.build, held.customer, round_half_up(held.amount, decimals)


def _sale(document: IssuedDocument, sheet: InvoiceSheet) -> Cells:
    sums, sign = sheet.sums, sheet.sign
    return (
        sheet.issued_on,
        sheet.number,
        KINDS[sheet.kind],
        ", ".join(reference.number for reference in sheet.preceding),
        sheet.buyer.name,
        sheet.buyer_country,
        sheet.buyer.tax_registration,
        document.build,
        sheet.supplied_on,
        sheet.due_on,
        sign * sums.net,
        sign * sums.tax,
        sign * sums.gross,
        sign * sums.prepaid,
        sign * sums.due,
        sheet.currency,
    )


def _lines(document: IssuedDocument, sheet: InvoiceSheet) -> Iterator[Cells]:
    for line in sheet.lines:
        yield _line(line, document, sheet)
    for adjustment in sheet.adjustments:
        yield (
            sheet.number,
            sheet.issued_on,
            None,
            adjustment.kind,
            adjustment.reason,
            None,
            "",
            None,
            sheet.sign * adjustment.signed,
            adjustment.tax_code,
            adjustment.category,
            adjustment.rate_pct,
            sheet.buyer.name,
            document.build,
            "",
            "",
        )


def _line(line: InvoiceLine, document: IssuedDocument, sheet: InvoiceSheet) -> Cells:
    return (
        sheet.number,
        sheet.issued_on,
        line.number,
        line.kind.replace("_", " "),
        line.description,
        sheet.sign * line.quantity,
        line.unit,
        _each(line),
        sheet.sign * line.net,
        line.tax_code,
        line.category,
        line.rate_pct,
        sheet.buyer.name,
        document.build,
        line.component or "",
        line.note,
    )


def _each(line: InvoiceLine) -> Decimal:
    return line.unit_price if line.price_base == 1 else line.unit_price / line.price_base


def _payment(payment: PaidDocument, decimals: int) -> Cells:
    return (
        payment.on,
        payment.number,
        payment.kind,
        payment.customer,
        payment.build,
        payment.method,
        round_half_up(payment.amount, decimals),
        payment.currency,
        payment.reference,
        "deposit" if payment.deposit else "",
        payment.takes_back,
    )
