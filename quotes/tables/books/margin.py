"""Job margin build by build: what was quoted against what it took."""

from __future__ import annotations

from decimal import Decimal

from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import get_language
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.tables.columns import HoursColumn, NumberColumn, TextColumn
from quotes.documents import words
from quotes.tables.books.columns import BooksTable, CoinColumn
from quotes.tables.columns import LinkColumn


class PerCentColumn(NumberColumn):
    """A share in per cent; bold below nought."""

    def render(self, value: Decimal) -> str | SafeString:
        decimals = max(-int(value.as_tuple().exponent), 0)
        told = f"{words.figure(value, decimals, get_language() or 'en')}{words.NO_BREAK}%"
        return format_html("<b>{}</b>", told) if value < 0 else told


class WorkedColumn(HoursColumn):
    """Hours to the hundredth, so that they stand under each other."""

    def render(self, value: Decimal) -> str:
        return words.figure(value, 2, get_language() or "en")


class NameColumn(TextColumn):
    """A name of the trade, in the reader's language."""

    def render(self, value: str) -> str:
        return say(value)

    def value(self, value: str) -> str:
        return say(value)


class MarginTable(BooksTable):
    """Sums are before tax; parts and machine work at what they cost the shop."""

    name = LinkColumn(_("Build"), page="build-money", of="build_id", name="name")
    customer = TextColumn(_("Customer"), "anywhere")
    tier = NameColumn(_("Built as"))
    engine_type = NameColumn(_("Engine type"))
    hours_quoted = WorkedColumn(_("Hours quoted"), accessor="hours__quoted")
    hours_actual = WorkedColumn(_("Hours worked"), accessor="hours__actual")
    parts_quoted = CoinColumn(_("Parts quoted"), accessor="parts__quoted")
    parts_actual = CoinColumn(_("Parts bought"), accessor="parts__actual")
    machine_quoted = CoinColumn(_("Machine work quoted"), accessor="machine_work__quoted")
    machine_actual = CoinColumn(_("Machine work bought in"), accessor="machine_work__actual")
    invoiced = CoinColumn(_("Invoiced"))
    cost = CoinColumn(_("Cost"))
    margin = CoinColumn(_("Margin"))
    margin_pct = PerCentColumn(_("Margin, per cent"))

    class Meta:
        order_by = "-name"
