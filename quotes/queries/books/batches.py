"""Export batches, and what stands in one: its entries with their documents, read piece by piece."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.db.models import Prefetch, QuerySet
from pydantic import ValidationError

from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.books.controls import Control
from quotes.calc.books.export import BillDocument, ExportEntry, IssuedDocument, PaidDocument, PostedLine
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import (
    ExportBatch,
    Invoice,
    JournalEntry,
    JournalLine,
    Payment,
    PaymentKind,
    SupplierBill,
)
from quotes.queries.books.tax_written_off import OfWriteOff, tax_in_write_offs

AT_ONCE = 200
"""Entries that are in memory together."""
DOCUMENTS = (
    "invoice__build__quote",
    "payment__customer",
    "payment__build__quote",
    "payment__reverses",
    "bill",
)


def batch_list() -> QuerySet[ExportBatch]:
    """Every batch, the latest first, without the content of its files."""
    rows = ExportBatch.objects.select_related("made_by", "workbook", "csv")
    return rows.defer("workbook__held", "csv__held", "controls")


def new_entries(first: date | None = None, last: date | None = None) -> QuerySet[JournalEntry]:
    """Entries in no batch yet, of a period or of all time; both days belong to the period."""
    found = JournalEntry.objects.not_exported()
    if first is not None:
        found = found.filter(on__gte=first)
    return found if last is None else found.filter(on__lte=last)


def controls_of(batch: ExportBatch) -> tuple[Control, ...]:
    """The control totals as they were checked; none where the batch has not been made yet."""
    return tuple(Control.model_validate(one) for one in batch.controls.get("checked", ()))


def entries_of(batch: ExportBatch) -> Iterator[list[ExportEntry]]:
    """The entries of a batch by day, some at a time; what they hold together is never in memory."""
    keys = list(JournalEntry.objects.filter(batch=batch).order_by("on", "pk").values_list("pk", flat=True))
    for start in range(0, len(keys), AT_ONCE):
        yield _entries(keys[start : start + AT_ONCE])


def _entries(keys: list[int]) -> list[ExportEntry]:
    lines = Prefetch(
        "lines", JournalLine.objects.select_related("build__quote").defer("build__quote__request")
    )
    found = JournalEntry.objects.filter(pk__in=keys).select_related(*DOCUMENTS).prefetch_related(lines)
    rows = list(
        found.defer("invoice__build__quote__request", "payment__build__quote__request").order_by("on", "pk")
    )
    given_up = tax_in_write_offs({row.write_off_id for row in rows if row.write_off_id})
    return [_entry(row, given_up) for row in rows]


def _entry(row: JournalEntry, given_up: Mapping[int, OfWriteOff]) -> ExportEntry:
    is_sale = row.source == "invoice" and row.invoice is not None
    return ExportEntry(
        pk=row.pk,
        on=row.on,
        source=row.source,
        number=row.number,
        party=row.party,
        text=row.text,
        total=row.total,
        lines=tuple(_line(line) for line in row.lines.all()),
        invoice=_issued(row.invoice) if is_sale and row.invoice else None,
        payment=_paid(row.payment) if row.source == "payment" and row.payment else None,
        bill=_billed(row.bill) if row.source == "bill" and row.bill else None,
        written_off=given_up[row.write_off_id].taxes
        if row.write_off_id and row.write_off_id in given_up
        else (),
    )


def _line(line: JournalLine) -> PostedLine:
    return PostedLine(
        role=line.role,
        account=line.account,
        account_name=line.account_name,
        debit=line.debit,
        credit=line.credit,
        text=line.text,
        tax_code=line.tax_code,
        rate_pct=line.rate_pct,
        build=_number(line.build),
    )


def _issued(row: Invoice) -> IssuedDocument:
    try:
        sheet = InvoiceSheet.model_validate(row.sheet)
    except ValidationError:
        sheet = None
    return IssuedDocument(
        number=row.number,
        build=_number(row.build),
        sheet=sheet,
        unaltered=sheet is not None and fingerprint(sheet) == row.sheet_sha256,
        net=row.net,
        tax=row.tax,
        gross=row.gross,
    )


def _paid(row: Payment) -> PaidDocument:
    return PaidDocument(
        number=row.number,
        kind=str(row.get_kind_display()),
        on=row.on,
        customer=row.customer.name,
        build=_number(row.build),
        method=str(row.get_method_display()),
        amount=row.amount * _way(row),
        currency=row.currency,
        reference=row.reference,
        deposit=row.deposit,
        takes_back=row.reverses.number if row.reverses else "",
    )


def _way(row: Payment) -> Decimal:
    """+1 for money that came in, -1 for money that went out; a reversal goes the other way."""
    if row.reverses is not None:
        return -_way(row.reverses)
    return Decimal(-1 if row.kind == PaymentKind.REFUND else 1)


def _billed(row: SupplierBill) -> BillDocument:
    return BillDocument(row.number, row.net, row.tax)


def _number(build: Any) -> str:
    return str(build.quote.number or "") if build else ""
