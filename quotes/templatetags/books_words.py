"""Sums in the workshop's own decimals, and the names of the books' sheets, as template tags."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django import template
from django.http import HttpRequest
from django.urls import reverse

from quotes.documents import words
from quotes.queries.workshop import currency_decimals

register = template.Library()

_SHEETS: tuple[tuple[str, str, bool], ...] = (
    ("The books today", "books-home", False),
    ("Overdue", "overdue", False),
    ("Bank files", "bank-list", False),
    ("Suppliers' bills", "bill-list", False),
    ("Journal", "journal", False),
    ("Trial balance", "trial-balance", False),
    ("Exports", "export-list", False),
    ("Months", "months", False),
    ("Job margin", "margin", True),
    ("Opening balances", "opening", False),
    ("Set up the books", "accounts", False),
)
"""Name, address, and whether it is the owner's alone."""


@dataclass(frozen=True, slots=True)
class BooksSheet:
    """One name in the list of the books' sheets."""

    label: str
    url: str
    present: bool


@register.inclusion_tag("quotes/books/sheets_nav.html", takes_context=True)
def books_sheets(context: dict[str, Any]) -> dict[str, Any]:
    """The names of the books' sheets that this person may open; the present one is bold."""
    request: HttpRequest = context["request"]
    owner = "owner" in context["site"]["roles"]
    sheets = [
        BooksSheet(label, url, request.path == url)
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
    return words.figure(amount, currency_decimals(context["site"]["workshop"].currency))


@register.simple_tag(takes_context=True)
def side(context: dict[str, Any], amount: Decimal | None) -> str:
    """A debit or a credit: the other side's nought is left blank, as in a ledger."""
    return coin(context, amount) if amount else ""


@register.simple_tag(takes_context=True)
def in_money(context: dict[str, Any], amount: Decimal) -> str:
    """A sum for a sentence, with the sign of the workshop's currency."""
    currency = context["site"]["workshop"].currency
    return words.money(amount, currency, currency_decimals(currency))
