"""The list of quotes."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import MoneyColumn, NumberColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.models import Quote
from quotes.tables.columns import DayColumn, LinkColumn, StateColumn


class QuoteTable(EntryTable):
    """One row a quote. The sums are with tax: the cheapest and the dearest option that was issued.

    What the latest revision says is sorted as its index is, sum and then quote, so that a page reads a page.
    """

    title = LinkColumn(_("Quote"), page="quote", name="name", order_by=("number", "pk"))
    state = StateColumn(_("State"))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    engine = LinkColumn(_("Engine"), page="engine", of="engine_id", order_by=("engine__number",))
    engine_type = TextColumn(_("Type"), accessor="engine__type_code")
    revision = NumberColumn(_("Revision"), accessor="latest__index")
    gross_from = MoneyColumn(
        _("From"), accessor="latest__gross_from", order_by=("latest__gross_from", "latest__quote_id")
    )
    gross_to = MoneyColumn(
        _("To"), accessor="latest__gross_to", order_by=("latest__gross_to", "latest__quote_id")
    )
    accepted = MoneyColumn(_("Accepted"), accessor="acceptance__gross")
    valid_until = DayColumn(
        _("Stands until"),
        accessor="latest__valid_until",
        order_by=("latest__valid_until", "latest__quote_id"),
    )
    created_at = DayColumn(_("Begun"))

    class Meta:
        order_by = "-created_at"

    def __init__(self, *args: object, engine_types: dict[str, str], **options: object) -> None:
        self.engine_types = engine_types
        super().__init__(*args, **options)

    def render_engine_type(self, value: str) -> str:
        return self.engine_types.get(value, value)

    value_engine_type = render_engine_type

    @staticmethod
    def value_title(record: Quote) -> str:
        return record.title
