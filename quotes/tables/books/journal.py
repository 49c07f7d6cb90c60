"""The journal as a list: every entry leads to its own page and to the document that it comes from."""

from __future__ import annotations

from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import ChoiceColumn, TextColumn
from quotes.models import JournalEntry
from quotes.tables.books.columns import BooksTable, CoinColumn
from quotes.tables.books.documents import document_url
from quotes.tables.columns import DayColumn, LinkColumn


class JournalTable(BooksTable):
    """One row an entry. Its sum is that of its debits, which is that of its credits."""

    text = LinkColumn(_("Entry"), page="journal-entry", name="name")
    on = DayColumn(_("On"))
    source = ChoiceColumn(_("Comes from"))
    number = TextColumn(_("Document"), "nowrap")
    party = TextColumn(_("Customer or supplier"))
    batch = TextColumn(_("Exported in"), order_by=("batch__made_at",))
    total = CoinColumn(_("Sum"))

    class Meta:
        order_by = ("-on", "-pk")

    @staticmethod
    def render_number(value: str, record: JournalEntry) -> str | SafeString:
        url = document_url(record)
        return format_html('<a href="{}">{}</a>', url, value) if url else value

    @staticmethod
    def value_number(value: str) -> str:
        return value

    @staticmethod
    def value_batch(value: object) -> str:
        return str(value)
