"""Hands the sums the language in hand: what Django's translations say, figures as its readers write them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from typing import Any

from babel.numbers import get_decimal_symbol, get_group_symbol
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
    return f"{value:,.{decimals}f}".translate(_marks(get_language() or "en"))


@cache
def _marks(language: str) -> dict[int, str]:
    """What stands between thousands and before decimals, by what Python sets there."""
    return str.maketrans({",": get_group_symbol(language), ".": get_decimal_symbol(language)})


def _inside(name: str) -> str:
    """German writes every noun large, wherever it stands."""
    return name if (get_language() or "en").startswith("de") else english_inside(name)
