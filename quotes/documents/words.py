"""Money and dates as a reader of the document's language writes them, beside the words for chances.

Where no language is given it is the one in hand.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from babel import Locale
from babel.dates import format_date, format_skeleton
from babel.numbers import format_currency, format_decimal, get_currency_name, get_currency_symbol
from django.utils.translation import get_language

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.sheet.name_words import inside, listed_up_to, plain_name
from quotes.calc.sheet.words import (
    NO_BREAK,
    OUT_OF,
    amount_in_words,
    chance_in_words,
    chance_with_band,
    estimate_in_words,
    first_large,
    likely_beside,
    likely_in_words,
    listed,
    out_of_twenty,
    percent_band,
    risk_band,
    risk_count,
    risk_in_words,
    times_in_words,
    whole_percent,
)

__all__ = [
    "NO_BREAK",
    "OUT_OF",
    "amount_in_words",
    "bare_chance",
    "chance_in_words",
    "chance_with_band",
    "currency_in_words",
    "day",
    "estimate_in_words",
    "figure",
    "first_large",
    "inside",
    "likely_beside",
    "likely_in_words",
    "listed",
    "listed_up_to",
    "long_day",
    "low_to_high",
    "money",
    "out_of_twenty",
    "percent",
    "percent_band",
    "plain_name",
    "risk_band",
    "risk_count",
    "risk_in_words",
    "round_money",
    "short_chance",
    "sign_follows",
    "spoken",
    "symbol",
    "times_in_words",
    "whole_percent",
    "without_about",
]


def spoken(language: str = "") -> str:
    """The language given, or the one in hand."""
    return language or get_language() or "en"


def bare_chance(chance: float) -> str:
    """A chance with no word before it where it is about that.

    >>> bare_chance(0.953), bare_chance(0.98)
    ('19 in 20', 'more than 19 in 20')
    """
    return without_about(chance_in_words(chance))


def without_about(words: str) -> str:
    """A count with no word before it where it is about that."""
    return words.removeprefix(say("about")).lstrip()


def short_chance(chance: float) -> str:
    """A chance short enough for a label.

    >>> short_chance(0.953), short_chance(0.98), short_chance(0.01)
    ('19 in 20', 'over 19 in 20', 'under 1 in 20')
    """
    words = bare_chance(chance).replace(say("more than"), say("over"))
    return words.replace(say("less than"), say("under"))


def low_to_high(low: str, high: str) -> str:
    """From one figure to another."""
    return say("{low} to {high}", low=low, high=high)


def money(amount: Decimal, currency: str, decimals: int = 2, language: str = "") -> str:
    """An amount with the sign of its currency.

    >>> money(Decimal("7756.32"), "EUR"), money(Decimal(1200), "HUF", 0).replace(NO_BREAK, " ")
    ('€7,756.32', 'HUF 1,200')
    """
    places, language = "." + "0" * decimals if decimals else "", spoken(language)
    pattern = Locale.parse(language).currency_formats["standard"].pattern.replace(".00", places)
    if pattern.startswith("¤") and symbol(currency, language)[-1].isalpha():
        pattern = pattern.replace("¤", f"¤{NO_BREAK}", 1)
    return format_currency(
        round_half_up(amount, decimals), currency, pattern, locale=language, currency_digits=False
    )


def round_money(amount: Decimal, currency: str, language: str = "") -> str:
    """An amount in whole units, for a glance or a label.

    >>> round_money(Decimal("7756.50"), "EUR")
    '€7,757'
    """
    return money(amount, currency, 0, language)


def figure(amount: Decimal, decimals: int = 2, language: str = "") -> str:
    """An amount for a column that names its currency at the head.

    >>> figure(Decimal("-7756.3"))
    '-7,756.30'
    """
    pattern = "#,##0" + ("." + "0" * decimals if decimals else "")
    return format_decimal(round_half_up(amount, decimals), pattern, locale=spoken(language))


def percent(rate_pct: Decimal, language: str = "") -> str:
    """A rate of tax or a discount, with no more decimals than it has.

    >>> percent(Decimal("7.250")).replace(NO_BREAK, " "), percent(Decimal(20)).replace(NO_BREAK, " ")
    ('7.25 %', '20 %')
    """
    return format_decimal(rate_pct, "#,##0.###", locale=spoken(language)) + NO_BREAK + "%"


def currency_in_words(currency: str, language: str = "") -> str:
    """The currency's name in the plural, as it stands at the head of a table.

    >>> currency_in_words("EUR"), currency_in_words("USD")
    ('euros', 'US dollars')
    """
    return get_currency_name(currency, count=2, locale=spoken(language))


def symbol(currency: str, language: str = "") -> str:
    return get_currency_symbol(currency, locale=spoken(language))


def sign_follows(language: str = "") -> bool:
    """Whether the sign of a currency stands after the amount.

    >>> sign_follows("en"), sign_follows("de")
    (False, True)
    """
    return str(Locale.parse(spoken(language)).currency_formats["standard"].pattern).endswith("¤")


def day(on: date, language: str = "") -> str:
    """A date that no reader can take the wrong way round.

    >>> day(date(2027, 1, 21)).replace(NO_BREAK, " ")
    '21 Jan 2027'
    """
    locale = spoken(language)
    said = (
        format_date(on, "d MMM y", locale) if locale == "en" else format_skeleton("yMMMd", on, locale=locale)
    )
    return said.replace(" ", NO_BREAK)


def long_day(on: date, language: str = "") -> str:
    """A date in full.

    >>> long_day(date(2026, 11, 25)).replace(NO_BREAK, " ")
    '25 November 2026'
    """
    locale = spoken(language)
    return format_date(on, "d MMMM y" if locale == "en" else "long", locale).replace(" ", NO_BREAK)
