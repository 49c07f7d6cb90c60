"""Words of the bench's pages."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from django import template

from catalogue.calc.said import say
from quotes.calc.bench.mind import mind
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure

register = template.Library()


@register.filter
def called(code: str, names: Mapping[str, str]) -> str:
    """The name of a code, or the code where it has none any more."""
    return names.get(code, code)


register.filter("mind", mind)


@register.filter
def run(amount: Decimal, unit: str) -> str:
    """An amount of service in words."""
    words = {str(code): word for code, word in WORDS.items()}
    return f"{plain_figure(amount)} {say(words.get(unit, unit))}"


@register.filter
def place(code: str) -> str:
    """Where in the engine it is, in words."""
    return place_in_words(code)
