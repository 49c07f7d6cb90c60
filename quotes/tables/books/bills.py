"""Suppliers' bills as a list."""

from __future__ import annotations

from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import TextColumn
from quotes.queries.books.bills import WORDS
from quotes.tables.books.columns import BooksTable, CoinColumn, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class BillWord(WordColumn):
    """The word whose place the row has been given."""

    def render(self, value: int) -> str | SafeString:
        return super().render(WORDS[value])

    def value(self, value: int) -> str:
        return super().value(WORDS[value])


class BillTable(BooksTable):
    """One row a bill; a supplier's credit note has sums below nought."""

    place = BillWord(_("State"), bold=frozenset({"overdue", "due"}))
    number = LinkColumn(_("Bill"), page="bill", name="name")
    supplier = TextColumn(_("Supplier"))
    supplier_number = TextColumn(_("Their number"))
    on = DayColumn(_("On"))
    due_on = DayColumn(_("Due"))
    net = CoinColumn(_("Before tax"))
    tax = CoinColumn(_("Tax"))
    gross = CoinColumn(_("With tax"))
    paid_on = DayColumn(_("Paid"), accessor="payment__on")

    class Meta:
        order_by = "-on"
