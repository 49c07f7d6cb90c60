"""Bank files that were read, as a list."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from catalogue.tables.columns import NumberColumn, TextColumn
from quotes.queries.people import name_of
from quotes.tables.books.columns import BooksTable, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class BankFileTable(BooksTable):
    """One row a file; bold while lines of it wait."""

    word = WordColumn(_("State"), bold=frozenset({"to look at"}), accessor="waiting", order_by=("-waiting",))
    name = LinkColumn(_("File"), page="bank-file", name="name")
    kept_at = DayColumn(_("Handed in"))
    kept_by = TextColumn(_("By"), order_by=("kept_by__username",))
    first = DayColumn(_("From"))
    last = DayColumn(_("To"))
    held = NumberColumn(_("Lines"))
    waiting = NumberColumn(_("waiting"))
    taken = NumberColumn(_("taken"))
    aside = NumberColumn(_("put aside"))

    class Meta:
        order_by = "-kept_at"

    @staticmethod
    def value_word(value: int) -> str:
        return say(_word(value))

    @staticmethod
    def render_word(value: int, column: WordColumn) -> str:
        return column.render(_word(value))

    @staticmethod
    def render_kept_by(value: User) -> str:
        return name_of(value)

    value_kept_by = render_kept_by


def _word(waiting: int) -> str:
    return to_say("to look at") if waiting else to_say("done")
