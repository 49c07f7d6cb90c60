"""Batches that were handed to the accounts, as a list."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import ChoiceColumn, NumberColumn, TextColumn
from quotes.queries.people import name_of
from quotes.tables.books.columns import BooksTable
from quotes.tables.columns import DayColumn, LinkColumn


class BatchTable(BooksTable):
    """One row a batch; its days are those that were asked for, blank where it took all that was new."""

    number = LinkColumn(_("Batch"), page="export", name="name")
    state = ChoiceColumn(_("State"))
    made_at = DayColumn(_("Made"))
    first = DayColumn(_("From"))
    last = DayColumn(_("To"))
    entries_held = NumberColumn(_("Entries"))
    lines_held = NumberColumn(_("Lines"))
    made_by = TextColumn(_("By"), order_by=("made_by__username",))

    class Meta:
        order_by = "-made_at"

    @staticmethod
    def render_made_by(value: User) -> str:
        return name_of(value)

    value_made_by = render_made_by
