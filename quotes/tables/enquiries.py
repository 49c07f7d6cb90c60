"""The list of enquiries."""

from __future__ import annotations

from decimal import Decimal

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say_figure
from catalogue.tables.columns import NumberColumn, TextColumn, cells
from catalogue.tables.tables import EntryTable
from quotes.models import Enquiry, EnquiryState
from quotes.tables.columns import DayColumn, LinkColumn


class EnquiryTable(EntryTable):
    """One row a call. The bands are with tax, as they were said: the cheapest and the dearest option."""

    number = LinkColumn(_("Enquiry"), page="enquiry", name="name")
    state = tables.Column(verbose_name=_("State"), attrs=cells("mark", _("State")))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    engine_type = TextColumn(_("Type"), accessor="engine_type", orderable=False)
    engine = LinkColumn(_("Engine"), page="engine", of="engine_id", order_by=("engine__number",))
    needed_on = DayColumn(_("Needed on"))
    budget = NumberColumn(_("Budget"))
    said_from = NumberColumn(_("Said from"), orderable=False)
    said_to = NumberColumn(_("Said to"), orderable=False)
    kept_at = DayColumn(_("Taken down"))

    class Meta:
        order_by = "-kept_at"

    def render_state(self, value: str) -> str | SafeString:
        """Bold where the desk still has to ring back."""
        word = EnquiryState(value).label
        return format_html("<b>{}</b>", word) if value == EnquiryState.OPEN else str(word)

    @staticmethod
    def render_budget(value: Decimal) -> str:
        """Whole money: a band is said, not added up."""
        return say_figure(value, 0)

    render_said_from = render_said_to = render_budget

    @staticmethod
    def value_state(value: str) -> str:
        return str(EnquiryState(value).label)

    @staticmethod
    def value_number(record: Enquiry) -> str:
        return record.number
