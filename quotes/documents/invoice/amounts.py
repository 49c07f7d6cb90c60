"""Amounts on invoices and on the papers about payments: with a true minus, in running text and in columns."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents.words import figure, money

MINUS = "\N{MINUS SIGN}"


def in_text(amount: Decimal, currency: str, decimals: int, language: str) -> str:
    """With the sign of the currency.

    >>> in_text(Decimal("-120.5"), "EUR", 2, "en").replace(MINUS, "minus ")
    'minus €120.50'
    """
    said = money(abs(amount), currency, decimals, language)
    return f"{MINUS}{said}" if amount < ZERO else said


def said(amount: Decimal, sheet: InvoiceSheet) -> str:
    """An amount of an invoice in running text."""
    return in_text(amount, sheet.currency, sheet.decimals, sheet.language)


def in_column(amount: Decimal, decimals: int, language: str) -> str:
    """For a column whose head names the currency.

    >>> in_column(Decimal("-1120.5"), 2, "en").replace(MINUS, "minus ")
    'minus 1,120.50'
    """
    said = figure(abs(amount), decimals, language)
    return f"{MINUS}{said}" if amount < ZERO else said


def rate_figure(rate_pct: Decimal, language: str) -> str:
    """A rate with the decimals it has.

    >>> rate_figure(Decimal("9.50"), "en"), rate_figure(Decimal("9.50"), "de")
    ('9.5', '9,5')
    """
    return figure(rate_pct, places_of(rate_pct), language)


def places_of(number: Decimal) -> int:
    """How many decimals it has that are not nought."""
    return max(0, -int(number.normalize().as_tuple().exponent))


def in_groups(iban: str) -> str:
    """An account number in fours, as it is written by hand.

    >>> in_groups("XX001234567")
    'XX00 1234 567'
    """
    plain = iban.replace(" ", "")
    return " ".join(plain[at : at + 4] for at in range(0, len(plain), 4))
