"""Invoices, credit notes, deposit invoices and drafts as a list."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.db.models import F, QuerySet
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.tables.columns import ChoiceColumn, TextColumn
from quotes.models import InvoiceDraft
from quotes.queries.books.invoice_list import OURS, WORDS
from quotes.tables.books.columns import BooksTable, CoinColumn, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class PlaceColumn(WordColumn):
    """The word whose place the row has been given."""

    def render(self, value: int) -> str | SafeString:
        return super().render(WORDS[value])

    def value(self, value: int) -> str:
        return super().value(WORDS[value])


class DocumentColumn(TextColumn):
    """The number, which leads to the document; a draft leads to its own page."""

    def render(self, record: InvoiceDraft) -> SafeString:
        page, key = ("invoice", record.invoice.pk) if issued(record) else ("invoice-draft", record.pk)
        return format_html('<a href="{}">{}</a>', reverse(page, args=[key]), self.value(record))

    def value(self, record: InvoiceDraft) -> str:
        return record.invoice.number if issued(record) else say("draft {number}", number=record.pk)


class SignedColumn(CoinColumn):
    """A sum with the sign of its document: a credit note gives back."""

    def render(self, value: Any, table: BooksTable, record: InvoiceDraft) -> str:  # type: ignore[override]
        return super().render(signed(value, record), table)

    def value(self, value: Any, table: BooksTable, record: InvoiceDraft) -> Decimal:  # type: ignore[override]
        return super().value(signed(value, record), table)


def issued(record: InvoiceDraft) -> bool:
    return hasattr(record, "invoice")


def signed(value: Any, record: InvoiceDraft) -> Decimal:
    amount = Decimal(str(value))
    return -amount if record.kind == "credit_note" else amount


class InvoiceTable(BooksTable):
    """One row a document. Sums of a credit note stand below nought."""

    place = PlaceColumn(_("State"), bold=OURS)
    number = DocumentColumn(_("Document"), "name", empty_values=(), order_by=("invoice__number", "pk"))
    kind = ChoiceColumn(_("Kind"))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    build = TextColumn(_("Build"), accessor="build__quote__number", order_by=("build__quote__number",))
    issued_on = DayColumn(_("Issued"))
    due_on = DayColumn(_("Due"), accessor="invoice__due_on")
    gross = SignedColumn(_("With tax"), accessor="invoice__gross")
    due = SignedColumn(_("Asked for"), accessor="invoice__due")
    open_amount = CoinColumn(_("Still to pay"), accessor="invoice__item__open_amount")

    class Meta:
        order_by = "-issued_on"

    @staticmethod
    def order_issued_on(rows: QuerySet[Any], is_descending: bool) -> tuple[QuerySet[Any], bool]:
        """A draft has its day still to come."""
        day = F("issued_on")
        by_day = day.desc(nulls_first=True) if is_descending else day.asc(nulls_last=True)
        return rows.order_by(by_day), True

    @staticmethod
    def render_build(value: str, record: InvoiceDraft) -> SafeString:
        return format_html('<a href="{}">{}</a>', reverse("build-money", args=[record.build_id]), value)

    @staticmethod
    def value_build(value: str) -> str:
        return value
