"""Job margin build by build: what was quoted against what it took."""

from __future__ import annotations

from decimal import Decimal

from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.tables.columns import HoursColumn, NumberColumn, TextColumn
from quotes.documents import words
from quotes.tables.books.columns import BooksTable, CoinColumn
from quotes.tables.columns import LinkColumn


class PerCentColumn(NumberColumn):
    """A share in per cent; bold below nought."""

    def render(self, value: Decimal) -> str | SafeString:
        told = f"{value}\N{NO-BREAK SPACE}%"
        return format_html("<b>{}</b>", told) if value < 0 else told


class WorkedColumn(HoursColumn):
    """Hours to the hundredth, so that they stand under each other."""

    def render(self, value: Decimal) -> str:
        return words.figure(value, 2)


class MarginTable(BooksTable):
    """Sums are before tax; parts and machine work at what they cost the shop."""

    name = LinkColumn("Build", page="build-money", of="build_id", name="name")
    customer = TextColumn("Customer")
    tier = TextColumn("Built as")
    engine_type = TextColumn("Engine type")
    hours_quoted = WorkedColumn("Hours quoted", accessor="hours__quoted")
    hours_actual = WorkedColumn("Hours worked", accessor="hours__actual")
    parts_quoted = CoinColumn("Parts quoted", accessor="parts__quoted")
    parts_actual = CoinColumn("Parts bought", accessor="parts__actual")
    machine_quoted = CoinColumn("Machine work quoted", accessor="machine_work__quoted")
    machine_actual = CoinColumn("Machine work bought in", accessor="machine_work__actual")
    invoiced = CoinColumn("Invoiced")
    cost = CoinColumn("Cost")
    margin = CoinColumn("Margin")
    margin_pct = PerCentColumn("Margin, per cent")

    class Meta:
        order_by = "-name"
