"""Hands the sums the language in hand: what Django's translations say, figures as its readers write them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from babel.numbers import format_decimal
from django.template.loader import render_to_string
from django.utils import translation
from django.utils.translation import get_language, gettext, ngettext

from catalogue.calc.said import english_inside, speak_through


def speak() -> None:
    """From now on sentences of the sums follow the active language."""
    speak_through(gettext, ngettext, _figure, _inside)


def paper_in(language: str, template: str, told: Callable[[], dict[str, Any]]) -> str:
    """The HTML of a paper in its own language, whatever the desk reads.

    `told` gives what the template is told; its sentences are said in that language too.
    """
    with translation.override(language):
        return render_to_string(template, told())


def _figure(value: float | Decimal, decimals: int) -> str:
    places = f".{'0' * decimals}" if decimals else ""
    rounded = Decimal(f"{value:.{decimals}f}")
    return str(format_decimal(rounded, format=f"#,##0{places}", locale=get_language() or "en"))


def _inside(name: str) -> str:
    """German writes every noun large, wherever it stands."""
    return name if (get_language() or "en").startswith("de") else english_inside(name)
