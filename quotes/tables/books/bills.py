"""Suppliers' bills as a list."""

from __future__ import annotations

from django.utils.safestring import SafeString

from catalogue.tables.columns import TextColumn
from quotes.queries.books.bills import WORDS
from quotes.tables.books.columns import BooksTable, CoinColumn, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class BillWord(WordColumn):
    """The word whose place the row has been given."""

    def render(self, value: int) -> str | SafeString:
        return super().render(WORDS[value])

    def value(self, value: int) -> str:
        return WORDS[value]


class BillTable(BooksTable):
    """One row a bill; a supplier's credit note has sums below nought."""

    place = BillWord("State", bold=frozenset({"overdue", "due"}))
    number = LinkColumn("Bill", page="bill", name="name")
    supplier = TextColumn("Supplier")
    supplier_number = TextColumn("Their number")
    on = DayColumn("On")
    due_on = DayColumn("Due")
    net = CoinColumn("Before tax")
    tax = CoinColumn("Tax")
    gross = CoinColumn("With tax")
    paid_on = DayColumn("Paid", accessor="payment__on")

    class Meta:
        order_by = "-on"
