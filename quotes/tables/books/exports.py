"""Batches that were handed to the accounts, as a list."""

from __future__ import annotations

from django.contrib.auth.models import User

from catalogue.tables.columns import ChoiceColumn, NumberColumn, TextColumn
from quotes.queries.people import name_of
from quotes.tables.books.columns import BooksTable
from quotes.tables.columns import DayColumn, LinkColumn


class BatchTable(BooksTable):
    """One row a batch; its days are those that were asked for, blank where it took all that was new."""

    number = LinkColumn("Batch", page="export", name="name")
    state = ChoiceColumn("State")
    made_at = DayColumn("Made")
    first = DayColumn("From")
    last = DayColumn("To")
    entries_held = NumberColumn("Entries")
    lines_held = NumberColumn("Lines")
    made_by = TextColumn("By", order_by=("made_by__username",))

    class Meta:
        order_by = "-made_at"

    @staticmethod
    def render_made_by(value: User) -> str:
        return name_of(value)

    value_made_by = render_made_by
