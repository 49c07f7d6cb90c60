"""The tax contained in write-offs, read off the frozen documents that they were for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db.models import Q

from catalogue.calc.money import ZERO
from quotes.calc.books.tax_written_off import TaxContained, left_of, tax_written_off
from quotes.models import Allocation, Invoice
from quotes.queries.books.credits import sheet_of_invoice


@dataclass(frozen=True, slots=True)
class OfWriteOff:
    """A write-off with the tax contained in it; `taxes` are empty where its document bears none."""

    number: str
    amount: Decimal
    taxes: tuple[TaxContained, ...]


def tax_in_write_offs(write_offs: Collection[int]) -> Mapping[int, OfWriteOff]:
    """By key of the write-off; one of something that is no document of ours, such as a balance from before
    the books, is not in it. The same number of queries for any number of them.
    """
    if not write_offs:
        return {}
    items = Allocation.objects.filter(credit__write_off__in=write_offs).values("debit")
    return {key: one for key, one in _of(Q(item__in=items)).items() if key in write_offs}


def tax_written_off_of(invoice: Invoice) -> tuple[OfWriteOff, ...]:
    """Of one document, each write-off in its order."""
    return tuple(_of(Q(pk=invoice.pk)).values())


@dataclass(frozen=True, slots=True)
class _Off:
    key: int
    number: str
    amount: Decimal
    at: datetime


def _of(documents: Q) -> dict[int, OfWriteOff]:
    invoices = list(Invoice.objects.filter(documents).exclude(item=None).order_by("pk"))
    notes: dict[int | None, list[Invoice]] = defaultdict(list)
    for note in Invoice.objects.filter(original__in=invoices).order_by("pk"):
        notes[note.original_id].append(note)
    offs = _offs(invoices)
    return {
        key: one
        for invoice in invoices
        for key, one in _shared_out(invoice, notes[invoice.pk], offs[invoice.pk])
    }


def _offs(invoices: Iterable[Invoice]) -> Mapping[int, list[_Off]]:
    """Invoice to what was written off of it, in order: by the first thing that each write-off settled."""
    found: dict[int, list[_Off]] = defaultdict(list)
    seen: set[int] = set()
    for invoice, off in _settled_in_order(invoices):
        if off.key not in seen:
            seen.add(off.key)
            found[invoice].append(off)
    return found


def _settled_in_order(invoices: Iterable[Invoice]) -> Iterable[tuple[int, _Off]]:
    rows = Allocation.objects.filter(debit__invoice__in=invoices, credit__kind="write_off").select_related(
        "debit", "credit__write_off"
    )
    for row in rows.order_by("pk"):
        off, invoice = row.credit.write_off, row.debit.invoice_id
        if off is not None and invoice is not None:
            yield invoice, _Off(off.pk, off.number, off.amount, off.at)


def _shared_out(
    invoice: Invoice, notes: Iterable[Invoice], offs: Iterable[_Off]
) -> Iterable[tuple[int, OfWriteOff]]:
    sheet, before = sheet_of_invoice(invoice), ZERO
    for off in offs:
        groups = left_of(sheet, [sheet_of_invoice(note) for note in notes if note.issued_at <= off.at])
        taxes = tax_written_off(groups, before=before, amount=off.amount, decimals=sheet.decimals)
        yield off.key, OfWriteOff(off.number, off.amount, taxes)
        before += off.amount
