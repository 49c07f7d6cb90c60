"""Columns of the catalogue's tables: numbers to the right, names that lead to their page, words for codes."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.calc.money import round_half_up
from catalogue.calc.numbers import said_figure
from catalogue.calc.said import say, say_figure

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


def cells(name: str, label: StrOrPromise) -> dict[str, dict[str, StrOrPromise]]:
    """Attributes of a column's cells: on a phone each says what it holds."""
    classes = {"class": name} if name else {}
    return {
        "th": {**classes, "role": "columnheader", "scope": "col"},
        "td": {**classes, "role": "cell", "data-label": label},
    }


def link(kind: str, code: str, words: object) -> SafeString:
    """Words that lead to the page of an entry."""
    return format_html('<a href="{}">{}</a>', reverse("catalogue:entry", args=[kind, code]), words)


class TextColumn(tables.Column):
    """Words."""

    def __init__(self, label: StrOrPromise, classes: str = "", **more: Any) -> None:
        super().__init__(verbose_name=label, attrs=cells(classes, label), default="", **more)


class SaidColumn(TextColumn):
    """Shipped words, as the reader's language has them."""

    def render(self, value: Any) -> str:
        return say(str(value))


class ChoiceColumn(TextColumn):
    """The word that a choice stands for; sorted by its code."""

    def render(self, record: Any, bound_column: Any) -> str:
        return str(getattr(record, f"get_{bound_column.accessor}_display")())

    def value(self, record: Any, bound_column: Any) -> str:
        return self.render(record, bound_column)


class TradeColumn(TextColumn):
    """Words of the catalogue, in the reader's language."""

    def render(self, value: Any) -> str:
        return say(str(value))

    def value(self, value: Any) -> str:
        return self.render(value)


class CodeColumn(TextColumn):
    """A code as words."""

    def render(self, value: str) -> str:
        return say(value.replace("_", " "))

    def value(self, value: str) -> str:
        return self.render(value)


class NumberColumn(tables.Column):
    """A number, to the right; taken away as a number."""

    def __init__(self, label: StrOrPromise, **more: Any) -> None:
        super().__init__(verbose_name=label, attrs=cells("n", label), default="", **more)

    def render(self, value: Any) -> str:
        return said_figure(value)

    def value(self, value: Any) -> Any:
        return value


class HoursColumn(NumberColumn):
    """Hours: the sum of what the database adds up, without the last bits of its reckoning."""

    PLACES = 3

    def render(self, value: Any) -> str:
        return said_figure(self.value(value))

    def value(self, value: Any) -> Decimal:
        return round_half_up(Decimal(str(value)), self.PLACES)


class MoneyColumn(NumberColumn):
    """A sum at two decimals."""

    def render(self, value: Any) -> str:
        return say_figure(self.value(value), 2)

    def value(self, value: Any) -> Decimal:
        return round_half_up(Decimal(str(value)))


class NameColumn(tables.Column):
    """The name of an entry, which leads to its page."""

    def __init__(self, label: StrOrPromise, kind: str, **more: Any) -> None:
        self.kind = kind
        super().__init__(verbose_name=label, attrs=cells("name", label), **more)

    def render(self, value: Any, record: Any) -> SafeString:
        return link(self.kind, record.pk, say(str(value)))

    def value(self, value: Any) -> str:
        return say(str(value))


class OtherColumn(tables.Column):
    """An entry of another kind, which leads to its page."""

    def __init__(self, label: StrOrPromise, kind: str, **more: Any) -> None:
        self.kind = kind
        super().__init__(verbose_name=label, attrs=cells("", label), default="", **more)

    def render(self, value: Any) -> SafeString:
        return link(self.kind, value.pk, say(str(value)))

    def value(self, value: Any) -> str:
        return say(str(value))
