"""The list of jobs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.tables.columns import TextColumn
from catalogue.tables.tables import EntryTable
from quotes.calc.bench.state import OURS, STATES
from quotes.models import Job
from quotes.tables.books.columns import WordColumn
from quotes.tables.columns import DayColumn, LinkColumn


class PlaceColumn(WordColumn):
    """The word whose place the row has been given."""

    def render(self, value: int) -> str | SafeString:
        return super().render(STATES[value])

    def value(self, value: int) -> str:
        return say(STATES[value])


class JobTable(EntryTable):
    """One row a job. The tag stands in every row: two like engines are told apart by it."""

    place = PlaceColumn(_("State"), bold=OURS)
    number = LinkColumn(_("Job"), page="job", name="name")
    tag = TextColumn(_("Tag"))
    shelf = TextColumn(_("Shelf"))
    engine = TextColumn(_("Engine"), order_by=("engine__number", "pk"))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    quote = TextColumn(_("Quote"), order_by=("quote__number",))
    received_at = DayColumn(_("In since"))
    left_at = DayColumn(_("Left"))

    class Meta:
        order_by = "-received_at"

    def __init__(self, *args: Any, engine_types: Mapping[str, str], **options: Any) -> None:
        self.engine_types = engine_types
        super().__init__(*args, **options)

    def render_place(self, value: int, column: PlaceColumn, record: Job) -> str | SafeString:
        """A job that rests says for what."""
        word = column.render(value)
        return format_html("{}: {}", word, record.hold_because) if record.hold_because else word

    @staticmethod
    def value_place(value: int) -> str:
        return say(STATES[value])

    def value_engine(self, record: Job) -> str:
        kind = self.engine_types.get(record.engine.type_code, record.engine.type_code)
        return ", ".join(filter(None, (record.engine.number, kind)))

    render_engine = value_engine

    @staticmethod
    def value_quote(record: Job) -> str:
        return record.quote.title if record.quote else ""

    render_quote = value_quote
