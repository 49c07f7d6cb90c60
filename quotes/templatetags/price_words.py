"""Listed prices as a page says them, as template tags."""

from __future__ import annotations

from decimal import Decimal

from django import template

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say_figure

register = template.Library()
PLACES = 2


@register.filter
def price(amount: Decimal) -> str:
    """A sum with two decimals, or with more where it has them: a litre out of a drum."""
    whole = amount == round_half_up(amount, PLACES)
    return say_figure(amount, PLACES if whole else 2 * PLACES)
