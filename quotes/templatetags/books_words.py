"""Sums in the workshop's own decimals, and the names of the books' sheets, as template tags."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django import template
from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import get_language

from catalogue.calc.said import say, to_say
from quotes.calc.said_days import said_month
from quotes.documents import words
from quotes.queries.workshop import currency_decimals

register = template.Library()

_SHEETS: tuple[tuple[str, str, bool], ...] = (
    (to_say("The books today"), "books-home", False),
    (to_say("Overdue"), "overdue", False),
    (to_say("Reminders"), "reminder-list", False),
    (to_say("Bank files"), "bank-list", False),
    (to_say("Suppliers' bills"), "bill-list", False),
    (to_say("Journal"), "journal", False),
    (to_say("Trial balance"), "trial-balance", False),
    (to_say("Exports"), "export-list", False),
    (to_say("Months"), "months", False),
    (to_say("Job margin"), "margin", True),
    (to_say("Opening balances"), "opening", False),
    (to_say("Set up the books"), "accounts", False),
)
"""Name, address, and whether it is the owner's alone."""


@dataclass(frozen=True, slots=True)
class BooksSheet:
    """One name in the list of the books' sheets."""

    label: str
    url: str
    present: bool


def language() -> str:
    """Of the page in hand."""
    return get_language() or "en"


@register.inclusion_tag("quotes/books/sheets_nav.html", takes_context=True)
def books_sheets(context: dict[str, Any]) -> dict[str, Any]:
    """The names of the books' sheets that this person may open; the present one is bold."""
    request: HttpRequest = context["request"]
    owner = "owner" in context["site"]["roles"]
    sheets = [
        BooksSheet(say(label), url, request.path == url)
        for label, name, owners in _SHEETS
        if owner or not owners
        for url in [reverse(name)]
    ]
    return {"sheets": sheets}


@register.simple_tag(takes_context=True)
def coin(context: dict[str, Any], amount: Decimal | None) -> str:
    """A sum for a column, with the decimals of the workshop's currency; nothing where there is none."""
    if amount is None:
        return ""
    decimals = currency_decimals(context["site"]["workshop"].currency)
    return words.figure(amount, decimals, language())


@register.simple_tag(takes_context=True)
def side(context: dict[str, Any], amount: Decimal | None) -> str:
    """A debit or a credit: the other side's nought is left blank, as in a ledger."""
    return coin(context, amount) if amount else ""


@register.simple_tag(takes_context=True)
def in_money(context: dict[str, Any], amount: Decimal) -> str:
    """A sum for a sentence, with the sign of the workshop's currency."""
    currency = context["site"]["workshop"].currency
    return words.money(amount, currency, currency_decimals(currency), language())


@register.filter(expects_localtime=True)
def local_day(at: datetime | None) -> str:
    """The day of a moment; nothing where there is none."""
    return words.day(at.date(), language()) if at else ""


@register.filter(expects_localtime=True)
def local_time(at: datetime | None) -> str:
    """Day and time of a moment; nothing where there is none."""
    return f"{local_day(at)}, {at:%H:%M}" if at else ""


@register.filter
def month(of: date) -> str:
    """Month and year."""
    return said_month(of)


ADJUSTMENTS = (to_say("allowance"), to_say("charge"))
"""Codes of a sum's parts that are words as they stand, named here to be translated."""


@register.filter
def said(code: str) -> str:
    """A word that is kept as a code: where a document stands, what was checked, a part of a sum."""
    return say(code)
