"""The list of customers."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import NumberColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.tables.columns import DayColumn, LinkColumn


class CustomerTable(EntryTable):
    """One row a customer, with how many engines and quotes they have."""

    name = LinkColumn(_("Customer"), page="customer", name="name")
    telephone = TextColumn(_("Telephone"))
    email = TextColumn(_("E-mail"), "anywhere")
    engines_kept = NumberColumn(_("Engines"))
    quotes_kept = NumberColumn(_("Quotes"))
    created_at = DayColumn(_("Since"))

    class Meta:
        order_by = "name"
