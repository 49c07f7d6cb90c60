"""Price lists as a list."""

from __future__ import annotations

from datetime import datetime

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure
from catalogue.models import ListState, PriceList
from catalogue.tables.columns import ChoiceColumn, SaidColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.tables.change_words import moment
from quotes.tables.columns import DayColumn, LinkColumn


class PriceListTable(EntryTable):
    """A row for each file that was handed in."""

    name = LinkColumn(_("File"), page="price-list", name="name anywhere")
    supplier = SaidColumn(_("Supplier"), accessor="supplier__name")
    state = ChoiceColumn(_("State"))
    in_force_from = DayColumn(_("In force from"))
    counts = TextColumn(_("What it does"), orderable=False)
    handed_in_at = TextColumn(_("Handed in"), "nowrap")

    class Meta:
        order_by = "-handed_in_at"

    def render_counts(self, value: dict[str, int], record: PriceList) -> str:
        if not value or record.state == ListState.DROPPED:
            return ""
        return say(
            "{new} new, {dearer} dearer, {cheaper} cheaper, {refused} refused",
            **{kind: say_figure(value.get(kind, 0), 0) for kind in ("new", "dearer", "cheaper", "refused")},
        )

    value_counts = render_counts

    def render_handed_in_at(self, value: datetime) -> str:
        return moment(value)

    value_handed_in_at = render_handed_in_at
