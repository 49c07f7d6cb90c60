"""Sheets of invoices: a draft as it would be issued on a day, and issued ones as they were."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Literal, cast

from django.utils import timezone, translation

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.rate_notes import rate_notes
from quotes.calc.invoice.sums import document_adjustments, document_sums, invoice_lines
from quotes.calc.invoice.values import (
    Account,
    InvoiceSheet,
    Kind,
    Late,
    Prepayment,
    Reference,
)
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.shop import TaxCode
from quotes.models import BooksSettings, Invoice, InvoiceDraft, Payment, Workshop
from quotes.queries.books.agreed import agreed_of, engine_of
from quotes.queries.books.chart import books_settings
from quotes.queries.books.credits import credit_content, sheet_of_invoice
from quotes.queries.books.day import money_of
from quotes.queries.sheets import DRAFT, customer_party, paragraphs, sheet_of, terms_of, workshop_party
from quotes.queries.starting_words import starting_words


def content_of(draft: InvoiceDraft) -> Draft:
    """What a draft holds, as a value."""
    return Draft.model_validate(draft.content)


def draft_sheet(draft: InvoiceDraft, on: date) -> InvoiceSheet:
    """The sheet that issuing the draft on that day would freeze, before it has its number.

    BadRequest where a line has a tax code that the workshop no longer has, or credits more than is left.
    """
    row = InvoiceDraft.objects.select_related(
        "customer", "build__quote__engine", "build__revision", "original"
    ).get(pk=draft.pk)
    return unkept_sheet(row, on)


def unkept_sheet(draft: InvoiceDraft, on: date) -> InvoiceSheet:
    """The same of the row in hand: it may hold what somebody has typed and not kept yet."""
    return _Making(draft, on).sheet()


def supply_day(draft: InvoiceDraft, on: date) -> date:
    """The day that says which tax rate holds: as set, else when the build was done, else that of issue."""
    if draft.supplied_on is not None:
        return draft.supplied_on
    if draft.kind == "invoice" and draft.build is not None and draft.build.done_at is not None:
        return min(on, timezone.localdate(draft.build.done_at))
    return on


class _Making:
    """One sheet while it is put together: the rows it comes from, read once."""

    def __init__(self, draft: InvoiceDraft, on: date) -> None:
        self.draft, self.on = draft, on
        self.content = content_of(draft)
        if draft.original is not None:
            self.content = credit_content(draft.original, self.content)
        self.workshop = Workshop.objects.get_or_default()
        self.settings = books_settings()
        self.supplied_on = supply_day(draft, on)
        self.money = money_of(self.supplied_on, self.workshop)
        self.original = sheet_of_invoice(draft.original) if draft.original else None
        self.quoted = sheet_of(draft.build.revision) if draft.build else None
        self.deposits = self._deposits()

    def _deposits(self) -> tuple[InvoiceSheet, ...]:
        """The deposit invoices that this one takes off."""
        keys = (line.key for line in self.content.lines if line.kind == "deposit" and line.key)
        numbers = {key.split(":")[1] for key in keys if key.count(":") == 2}
        if not numbers or self.original:
            return ()
        rows = Invoice.objects.filter(kind="deposit_invoice", number__in=numbers).order_by("pk")
        return tuple(sheet_of_invoice(row) for row in rows)

    def sheet(self) -> InvoiceSheet:
        content, codes, decimals = self.content, self.money.tax_codes, self.money.decimals
        _refuse_unknown_codes(content, codes)
        prepayments = self._prepayments()
        adjustments = document_adjustments(content, codes, decimals)
        priced = invoice_lines(content, codes, decimals)
        sums = document_sums(
            priced,
            adjustments,
            codes,
            decimals=decimals,
            prepaid=sum((each.amount for each in prepayments), ZERO),
            rounding=content.rounding,
        )
        asks = self.draft.kind != "credit_note" and sums.due > ZERO
        with translation.override(self.draft.customer.reads):
            payment_words, notes = self._payment_words(asks), self._notes()
        return InvoiceSheet(
            kind=cast(Kind, str(self.draft.kind)),
            number=DRAFT,
            issued_on=self.on,
            due_on=self.on + timedelta(days=self.settings.payment_days) if asks else None,
            payment_words=payment_words,
            supplied_on=self.supplied_on,
            currency=self.money.currency,
            decimals=decimals,
            lines=priced,
            adjustments=adjustments,
            sums=sums,
            preceding=self._preceding(),
            prepayments=prepayments,
            reason=content.reason,
            notes=notes,
            **self._parties(),
            **self._of_build(),
            **_of_settings(self.settings),
        )

    def _payment_words(self, asks: bool) -> str:
        """BT-20, which BR-CO-25 asks for of a credit note too."""
        if asks:
            return starting_words(self.settings.payment_words)
        original = self.draft.original
        if original is None:
            return ""
        return say("Taken off {number}; what was paid on it is paid back", number=original.number)

    def _prepayments(self) -> tuple[Prepayment, ...]:
        wanted = {number: amount for number, amount in self.content.prepayments.items() if amount}
        if not wanted:
            return ()
        rows = Payment.objects.filter(number__in=wanted).order_by("on", "pk")
        return tuple(Prepayment(receipt=row.number, on=row.on, amount=wanted[row.number]) for row in rows)

    def _preceding(self) -> tuple[Reference, ...]:
        sheets = (self.original,) if self.original else self.deposits
        return tuple(
            Reference(kind=sheet.kind, number=sheet.number, issued_on=sheet.issued_on) for sheet in sheets
        )

    def _notes(self) -> tuple[str, ...]:
        said = paragraphs(self.content.note)
        if self.quoted is None or self.draft.build is None or self.original:
            return said
        option = self.quoted.comparison.option(self.draft.build.tier)
        used = (line.tax_code for line in self.content.lines if line.kind != "deposit")
        return (*said, *rate_notes(option, used, self.money.tax_codes, self.supplied_on))

    def _parties(self) -> dict[str, object]:
        customer = self.draft.customer
        country = self.settings.country or self.workshop.calendar_country
        return {
            "tax_style": str(self.workshop.tax_style),
            "seller": workshop_party(self.workshop),
            "seller_country": country,
            "buyer": customer_party(customer),
            "buyer_country": customer.country or country,
            "paper": cast(Literal["A4", "Letter"], str(self.workshop.paper)),
            "language": customer.reads,
        }

    def _of_build(self) -> dict[str, object]:
        build = self.draft.build
        if build is None or self.quoted is None:
            return {"terms": terms_of(self.workshop)}
        quoted: Sheet = self.quoted
        return {
            "terms": quoted.terms,
            "agreed": agreed_of(build),
            **engine_of(build, quoted),
        }


def _of_settings(settings: BooksSettings) -> dict[str, object]:
    return {
        "account": Account(iban=settings.iban, bic=settings.bic, name=settings.account_name),
        "late": Late(rate_pct_a_year=settings.late_pct_a_year, after_days=settings.late_after_days),
    }


def _refuse_unknown_codes(content: Draft, codes: Mapping[str, TaxCode]) -> None:
    used = [
        (f"lines.{number}.tax_code", line.tax_code)
        for number, line in enumerate(content.lines, 1)
        if line.taxed is None
    ]
    used += [
        (f"adjustments.{number}.tax_code", part.tax_code)
        for number, part in enumerate(content.adjustments, 1)
        if part.taxed is None
    ]
    known = ", ".join(sorted(codes))
    faults = tuple(
        Fault(field, code, say("the workshop's tax codes are: {known}", known=known))
        for field, code in used
        if code not in codes
    )
    if faults:
        raise BadRequest(faults)
