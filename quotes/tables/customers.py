"""The list of customers."""

from __future__ import annotations

from catalogue.tables.columns import NumberColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.tables.columns import DayColumn, LinkColumn


class CustomerTable(EntryTable):
    """One row a customer, with how many engines and quotes they have."""

    name = LinkColumn("Customer", page="customer", name="name")
    telephone = TextColumn("Telephone")
    email = TextColumn("E-mail")
    engines_kept = NumberColumn("Engines")
    quotes_kept = NumberColumn("Quotes")
    created_at = DayColumn("Since")

    class Meta:
        order_by = "name"
