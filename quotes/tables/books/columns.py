"""Columns of the books: sums in the currency's decimals, and documents that lead to their page."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import get_language

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from catalogue.tables.columns import NumberColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.documents import words

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


class BooksTable(EntryTable):
    """A list whose sums have the decimals of the workshop's currency."""

    def __init__(self, *args: Any, decimals: int = 2, **options: Any) -> None:
        self.decimals = decimals
        super().__init__(*args, **options)


class CoinColumn(NumberColumn):
    """A sum in the workshop's currency; taken away as a number."""

    def render(self, value: Any, table: BooksTable | None = None) -> str:
        return words.figure(Decimal(str(value)), _decimals(table), get_language() or "en")

    def value(self, value: Any, table: BooksTable | None = None) -> Decimal:
        return round_half_up(Decimal(str(value)), _decimals(table))


def _decimals(table: BooksTable | None) -> int:
    return table.decimals if table else 2


class WordColumn(TextColumn):
    """A state as a word, bold where `bold` says that it wants something of us."""

    def __init__(self, label: StrOrPromise, *, bold: frozenset[str] = frozenset(), **more: Any) -> None:
        self.bold = bold
        super().__init__(label, "mark", **more)

    def render(self, value: Any) -> str | SafeString:
        return format_html("<b>{}</b>", say(value)) if value in self.bold else say(value)

    def value(self, value: Any) -> str:
        return say(value)
