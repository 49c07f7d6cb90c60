"""Figures, dates and chances as the desk's sheets write them: the documents' words, as template filters."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from catalogue.calc.said import say
from quotes.calc.sheet.words import chance_in_words, percent_band, risk_in_words, whole_percent
from quotes.documents import words

register = template.Library()
_NUMBER = re.compile(r"\b([A-Z]{1,4}-\d{4}-\d+)\b")
MINUS = "\N{MINUS SIGN}"


@register.filter
def unbroken(words: str) -> SafeString:
    """The numbers of papers in it kept on one line: a half at the end of each is read as another number."""
    # Escaped first: what escaping puts in looks like no number of a paper.
    return mark_safe(_NUMBER.sub(r'<span class="nowrap">\1</span>', escape(words)))


@register.filter
def money(amount: Decimal) -> str:
    """A sum for a column that names its currency at the head."""
    return words.figure(amount)


@register.filter
def signed(amount: Decimal) -> str:
    """A change of a sum, with its sign."""
    return _with_sign(amount, words.figure(abs(amount)))


@register.filter
def signed_plain(quantity: Decimal) -> str:
    """A change of a quantity, with its sign only where something is taken off."""
    return f"{MINUS}{plain(-quantity)}" if quantity < 0 else plain(quantity)


def _with_sign(amount: Decimal, figure: str) -> str:
    if not amount:
        return figure
    return f"+{figure}" if amount > 0 else f"{MINUS}{figure}"


@register.filter
def hours(worked: Decimal) -> str:
    """Bench hours, to the hundredth."""
    return words.figure(worked, 2)


@register.filter
def rate(per_cent: Decimal) -> str:
    """A rate of tax with no more decimals than it has."""
    return words.percent(per_cent)


@register.filter
def day(on: date) -> str:
    """A date that nobody can take the wrong way round."""
    return words.day(on)


@register.filter
def plain(quantity: Decimal) -> str:
    """A quantity without the noughts that say nothing."""
    return words.figure(quantity, max(-int(quantity.normalize().as_tuple().exponent), 0))


@register.filter
def said(word: str) -> str:
    """The word of a sheet that is kept in English: a state, a kind, a unit of the catalogue."""
    return say(word) if word else ""


@register.filter
def stops(chance: float) -> str:
    """How many engines in 100 stop, from the chance of finishing."""
    return risk_in_words(100 * (1 - chance))


@register.filter
def finishes(chance: float) -> str:
    """A chance of finishing, out of twenty, with its per cent as a whole number."""
    return f"{chance_in_words(chance)}, {whole_percent(chance)}"


@register.filter
def likely_to(low: float, high: float) -> str:
    """The band of a chance, from its low end to its high one."""
    return say("likely {band}", band=percent_band(low, high))
