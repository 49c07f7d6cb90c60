"""Hands the sums the language in hand: what Django's translations say, figures as its readers write them."""

from __future__ import annotations

from babel.numbers import format_decimal
from django.utils.translation import get_language, gettext, ngettext

from catalogue.calc.said import speak_through


def speak() -> None:
    """From now on sentences of the sums follow the active language."""
    speak_through(gettext, ngettext, _figure)


def _figure(value: float, decimals: int) -> str:
    places = f".{'0' * decimals}" if decimals else ""
    return str(format_decimal(value, format=f"#,##0{places}", locale=get_language() or "en"))
