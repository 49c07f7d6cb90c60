"""The list of enquiries."""

from __future__ import annotations

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.tables.columns import MoneyColumn, TextColumn, cells
from catalogue.tables.tables import EntryTable
from quotes.models import Enquiry, EnquiryState
from quotes.tables.columns import DayColumn, LinkColumn


class EnquiryTable(EntryTable):
    """One row a call. The bands are with tax, as they were said: the cheapest and the dearest option."""

    number = LinkColumn("Enquiry", page="enquiry", name="name")
    state = tables.Column(verbose_name="State", attrs=cells("mark", "State"))
    customer = LinkColumn("Customer", page="customer", of="customer_id", order_by=("customer__name",))
    engine = TextColumn("Engine", accessor="engine_words", orderable=False)
    needed_on = DayColumn("Needed on")
    budget = MoneyColumn("Budget")
    said_from = MoneyColumn("Said from", accessor="said_from", orderable=False)
    said_to = MoneyColumn("to", accessor="said_to", orderable=False)
    kept_at = DayColumn("Taken down")

    class Meta(EntryTable.Meta):
        order_by = "-kept_at"

    def render_state(self, value: str) -> str | SafeString:
        """Bold where the desk still has to ring back."""
        word = EnquiryState(value).label
        return format_html("<b>{}</b>", word) if value == EnquiryState.OPEN else str(word)

    @staticmethod
    def value_number(record: Enquiry) -> str:
        return record.number
