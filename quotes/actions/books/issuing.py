"""Issuing an invoice, deposit invoice or credit note: all of it, or nothing at all.

In one transaction the number is taken from its locked counter, the sheet frozen, PDF and XML drawn and
stored, the document put on the customer's account and its entry posted. Whatever fails takes the number back.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.actions.books import drawing
from quotes.actions.books.build_costs import settle_cost_of_sales, take_cost_of_sales_back
from quotes.actions.books.checks import refuse_unfit
from quotes.actions.books.day_order import refuse_earlier_day
from quotes.actions.books.invoice_items import open_invoice_item
from quotes.actions.books.journal import post, refuse_closed
from quotes.actions.books.numbers import SeriesKind, series_number
from quotes.actions.books.refused import DraftClosed, DraftFaults
from quotes.actions.drafts import number_key
from quotes.actions.saving import save_checked
from quotes.actions.storing import store_file
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.books.posting import invoice_entry
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Acceptance, Invoice, InvoiceDraft, InvoiceKind, Payment, StoredFile
from quotes.queries.books.build import finally_invoiced
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.credits import credited_in_full
from quotes.queries.books.invoiced import is_invoiced
from quotes.queries.books.sheets import draft_sheet

SERIES: dict[str, SeriesKind] = {
    InvoiceKind.INVOICE: "I",
    InvoiceKind.CREDIT: "C",
    InvoiceKind.DEPOSIT: "D",
}


def issue_invoice(
    *, draft: InvoiceDraft, by: User, now: datetime, consent: str = "", earlier_because: str = ""
) -> Invoice:
    """Issue a draft; pressed twice it gives the same document.

    `consent` is the owner's word, in writing, for asking for more than was accepted, `earlier_because` for an
    earlier day than that of the document before. Raises DraftClosed, DraftFaults, NothingToInvoice,
    MissingAcceptance, ConsentIsTheOwners, NotCreditable, MonthClosed, EarlierDay, EarlierDayIsTheOwners or
    EInvoiceRefused; nothing is issued then and no number is used.
    """
    drawing.warm_up()
    return _issue(draft, by, now, _Words(consent.strip(), earlier_because.strip()))


@dataclass(frozen=True, slots=True)
class _Words:
    """What the owner gives in writing, each empty where it is not needed."""

    consent: str
    earlier_because: str


@transaction.atomic
def _issue(draft: InvoiceDraft, by: User, now: datetime, given: _Words) -> Invoice:
    row = InvoiceDraft.objects.select_for_update(of=("self",)).get(pk=draft.pk)
    if issued := Invoice.objects.filter(draft=row).first():
        return issued
    if row.dropped_at is not None:
        raise DraftClosed
    _lock_what_it_draws_on(row)
    on = timezone.localdate(now)
    refuse_closed(on)
    try:
        sheet = draft_sheet(row, on)
    except BadRequest as bad:
        raise DraftFaults(bad.faults) from None
    consent = refuse_unfit(row, sheet, by, given.consent)
    number = series_number(kind=SERIES[row.kind], on=on)
    because = refuse_earlier_day(kind=row.kind, on=on, by=by, because=given.earlier_because)
    needed = _Words(consent, because)
    invoice = _frozen(row, sheet.model_copy(update={"number": number}), by, now, needed)
    row.issued_on = invoice.issued_on
    row.save(update_fields=["issued_on"])
    _enter(invoice, by, now)
    return invoice


def _lock_what_it_draws_on(row: InvoiceDraft) -> None:
    """Two drafts of one build, or two credits of one invoice, are issued one after the other."""
    if row.build_id is not None:
        Acceptance.objects.select_for_update(of=("self",)).get(pk=row.build_id)
    elif receipts := row.content.get("prepayments"):
        list(Payment.objects.select_for_update(of=("self",)).filter(number__in=receipts).order_by("pk"))
    if row.original_id is not None:
        Invoice.objects.select_for_update(of=("self",)).get(pk=row.original_id)


def _frozen(row: InvoiceDraft, sheet: InvoiceSheet, by: User, now: datetime, words: _Words) -> Invoice:
    """The document with its files, written once."""
    files = drawing.drawn(sheet)
    invoice = Invoice(
        kind=row.kind,
        number=sheet.number,
        customer=row.customer,
        build=row.build,
        original=row.original,
        draft=row,
        sheet=sheet.model_dump(mode="json", by_alias=True),
        sheet_sha256=fingerprint(sheet),
        issued_on=sheet.issued_on,
        issued_at=now,
        issued_by=by,
        due_on=sheet.due_on,
        currency=sheet.currency,
        net=sheet.sums.net,
        tax=sheet.sums.tax,
        gross=sheet.sums.gross,
        prepaid=sheet.sums.prepaid,
        due=sheet.sums.due,
        consent=words.consent,
        earlier_because=words.earlier_because,
        search_key=number_key(sheet.number),
        pdf=_stored(sheet, "pdf", drawing.PDF, files.pdf, now),
        xml=_stored(sheet, "xml", drawing.XML, files.xml, now) if files.xml else None,
    )
    return save_checked(invoice)


def _stored(sheet: InvoiceSheet, ending: str, content_type: str, content: bytes, now: datetime) -> StoredFile:
    name = f"{sheet.number}.{ending}"
    return store_file(name=name, content_type=content_type, content=content, now=now)


def _enter(invoice: Invoice, by: User, now: datetime) -> None:
    """On the customer's account and into the journal; with the last of a build go its costs."""
    sheet = InvoiceSheet.model_validate(invoice.sheet)
    build = invoice.build
    number = (build.quote.number or "") if build else ""
    open_invoice_item(invoice=invoice, now=now)
    entry = invoice_entry(sheet, accounts_now(), build=number)
    post(entry=entry, by=by, now=now, invoice=invoice, builds={number: build} if build else {})
    if build:
        _say_invoiced(build, now)
        _move_costs(invoice, build, by, now)


def _say_invoiced(build: Acceptance, now: datetime) -> None:
    """Say on the build itself whether it is invoiced, so that nobody has to read all invoices for it."""
    row = Acceptance.objects.only("invoiced_at").get(pk=build.pk)
    invoiced = is_invoiced(build)
    if invoiced != (row.invoiced_at is not None):
        row.invoiced_at = now if invoiced else None
        row.save(update_fields=["invoiced_at"])


def _move_costs(invoice: Invoice, build: Acceptance, by: User, now: datetime) -> None:
    """To the cost of sales with the final invoice, and back into work when that is credited in full."""
    on = invoice.issued_on
    if invoice.kind == InvoiceKind.INVOICE and finally_invoiced(build, on):
        settle_cost_of_sales(build=build, on=on, by=by, now=now)
    original = invoice.original
    if (
        original
        and original.kind == InvoiceKind.INVOICE
        and credited_in_full(original)
        and not finally_invoiced(build, on)
    ):
        take_cost_of_sales_back(build=build, on=on, by=by, now=now)
