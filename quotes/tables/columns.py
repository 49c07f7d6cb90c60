"""Columns of quotes: the state as a word, names that lead to their page, days and sums."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING, Any

import django_tables2 as tables
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.tables.columns import cells
from quotes.documents.words import day
from quotes.models import QuoteState
from quotes.queries.rights import may_open

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


class StateColumn(tables.Column):
    """Where a quote stands, as a word; bold where we have to act."""

    OURS = frozenset({QuoteState.DRAFT.value, QuoteState.ASKED.value})

    def __init__(self, label: StrOrPromise, **more: Any) -> None:
        super().__init__(verbose_name=label, attrs=cells("mark", label), **more)

    def render(self, value: str) -> str | SafeString:
        word = str(QuoteState(value).label)
        return format_html("<b>{}</b>", word) if value in self.OURS else word

    def value(self, value: str) -> str:
        return str(QuoteState(value).label)


class LinkColumn(tables.Column):
    """Words that lead to the page of the row they stand for; `page` names the address, `of` whose key."""

    def __init__(
        self, label: StrOrPromise, *, page: str, of: str = "pk", name: str = "", **more: Any
    ) -> None:
        self.page, self.of = page, of
        super().__init__(verbose_name=label, attrs=cells(name, label), default="", **more)

    def render(self, value: Any, record: Any, table: Any = None) -> SafeString:
        """Only the words where the reader may not open the page."""
        request = getattr(table, "request", None)
        if request is not None and not may_open(request.user, self.page):
            return format_html("{}", value)
        return format_html('<a href="{}">{}</a>', reverse(self.page, args=[getattr(record, self.of)]), value)

    def value(self, value: Any) -> str:
        return str(value)


class DayColumn(tables.Column):
    """A day; taken away as a day."""

    def __init__(self, label: StrOrPromise, **more: Any) -> None:
        super().__init__(verbose_name=label, attrs=cells("n", label), default="", **more)

    def render(self, value: date | datetime) -> str:
        return day(self.value(value))

    def value(self, value: date | datetime) -> date:
        return timezone.localdate(value) if isinstance(value, datetime) else value
