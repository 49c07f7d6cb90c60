"""What customers owe, document by document."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from catalogue.tables.columns import NumberColumn
from quotes.calc.books.ages import Age, age_of, days_past
from quotes.models import OpenItem
from quotes.tables.books.columns import BooksTable, CoinColumn, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn

AGES: Mapping[Age, str] = {
    "not_due": to_say("not yet due"),
    "to_30": to_say("1 to 30 days"),
    "to_60": to_say("31 to 60 days"),
    "to_90": to_say("61 to 90 days"),
    "over_90": to_say("over 90 days"),
}


class OverdueTable(BooksTable):
    """One row a document with something open. `late_day` is the day by which it was to be paid."""

    age = WordColumn(
        _("State"),
        bold=frozenset(words for age, words in AGES.items() if age != "not_due"),
        accessor="late_day",
        order_by=("-late_day",),
    )
    number = LinkColumn(_("Document"), page="invoice", of="invoice_id", name="name")
    customer = LinkColumn(_("Customer"), page="statement", of="customer_id", order_by=("customer__name",))
    late_day = DayColumn(_("Due"))
    days = NumberColumn(_("Days late"), accessor="late_day", order_by=("-late_day",))
    amount = CoinColumn(_("Sum"))
    open_amount = CoinColumn(_("Open"))
    interest = CoinColumn(_("Interest proposed"), empty_values=(), orderable=False)

    class Meta:
        order_by = "late_day"

    def __init__(self, *args: Any, on: date, interest: Mapping[int, Decimal], **options: Any) -> None:
        self.on, self.proposed = on, interest
        super().__init__(*args, **options)

    def render_age(self, value: date, column: WordColumn) -> str | SafeString:
        return column.render(AGES[age_of(value, self.on)])

    def value_age(self, value: date) -> str:
        return say(AGES[age_of(value, self.on)])

    def render_days(self, value: date) -> int:
        return max(days_past(value, self.on), 0)

    value_days = render_days

    @staticmethod
    def render_number(value: str, record: OpenItem) -> str | SafeString:
        """An opening balance has no document here."""
        if record.invoice_id is None:
            return value
        return format_html('<a href="{}">{}</a>', reverse("invoice", args=[record.invoice_id]), value)

    @staticmethod
    def value_number(value: str) -> str:
        return value

    def render_interest(self, record: OpenItem, column: CoinColumn) -> str:
        proposed = self.proposed.get(record.pk)
        return column.render(proposed, self) if proposed else ""

    def value_interest(self, record: OpenItem) -> Decimal | None:
        return self.proposed.get(record.pk)
