"""Bank files that were read, as a list."""

from __future__ import annotations

from django.contrib.auth.models import User

from catalogue.tables.columns import NumberColumn, TextColumn
from quotes.queries.people import name_of
from quotes.tables.books.columns import BooksTable, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class BankFileTable(BooksTable):
    """One row a file; bold while lines of it wait."""

    word = WordColumn("State", bold=frozenset({"to look at"}), accessor="waiting", order_by=("-waiting",))
    name = LinkColumn("File", page="bank-file", name="name")
    kept_at = DayColumn("Handed in")
    kept_by = TextColumn("By", order_by=("kept_by__username",))
    first = DayColumn("From")
    last = DayColumn("To")
    held = NumberColumn("Lines")
    waiting = NumberColumn("waiting")
    taken = NumberColumn("taken")
    aside = NumberColumn("put aside")

    class Meta:
        order_by = "-kept_at"

    @staticmethod
    def value_word(value: int) -> str:
        return "to look at" if value else "done"

    def render_word(self, value: int, column: WordColumn) -> str:
        return column.render(self.value_word(value))

    @staticmethod
    def render_kept_by(value: User) -> str:
        return name_of(value)

    value_kept_by = render_kept_by
