"""Sums that a page of invoices works out from what it shows, as template tags."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import template

from catalogue.calc.said import say
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents import words
from quotes.queries.workshop import currency_decimals
from quotes.templatetags.books_words import language

register = template.Library()


@register.simple_tag(takes_context=True)
def product(context: dict[str, Any], quantity: Decimal, price: Decimal) -> str:
    """What so many at that price come to, with the decimals of the workshop's currency."""
    decimals = currency_decimals(context["site"]["workshop"].currency)
    return words.figure(quantity * price, decimals, language())


@register.simple_tag
def deposits_off(sheet: InvoiceSheet) -> Decimal | None:
    """What an invoice takes off for deposits, before tax, below nought; nothing where it takes off none."""
    if sheet.kind == "deposit_invoice":
        return None
    return sum((line.net for line in sheet.lines if line.kind == "deposit"), Decimal(0)) or None


@register.simple_tag
def less(amount: Decimal, other: Decimal) -> Decimal:
    """The first without the second."""
    return amount - other


@register.simple_tag
def operation_name(names: dict[str, str], code: str) -> str:
    """The operation that hours were written down for."""
    return names.get(code) or code or say("other bench work")
