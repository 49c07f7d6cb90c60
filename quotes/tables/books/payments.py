"""Payments as a list."""

from __future__ import annotations

from typing import Any

from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import ChoiceColumn, TextColumn
from quotes.models import Payment
from quotes.tables.books.columns import BooksTable, CoinColumn
from quotes.tables.columns import DayColumn, LinkColumn


class PaymentTable(BooksTable):
    """One row a payment. What was paid back, or taken back, stands below nought."""

    number = LinkColumn(_("Payment"), page="payment", name="name")
    kind = ChoiceColumn(_("Kind"))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    on = DayColumn(_("On"))
    method = ChoiceColumn(_("How"))
    reference = TextColumn(_("Reference"))
    build = TextColumn(_("Deposit for"), accessor="build__quote__number", order_by=("build__quote__number",))
    amount = CoinColumn(_("Sum"))
    open_amount = CoinColumn(_("Not yet used"))

    class Meta:
        order_by = "-on"

    def render_amount(self, value: Any, record: Payment, column: CoinColumn) -> str | SafeString:
        return column.render(value if record.kind == "received" else -value, self)

    def value_amount(self, value: Any, record: Payment, column: CoinColumn) -> Any:
        return column.value(value if record.kind == "received" else -value, self)

    def render_open_amount(self, value: Any, column: CoinColumn) -> str:
        return column.render(abs(value), self) if value else ""

    def value_open_amount(self, value: Any, column: CoinColumn) -> Any:
        return column.value(abs(value), self)
