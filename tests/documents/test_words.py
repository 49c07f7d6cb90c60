"""Chances, risks, money and dates in words: rounded honestly, never certain, never a third figure."""

from __future__ import annotations

import doctest
import re
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

import quotes.calc.sheet.lock_words
import quotes.calc.sheet.words
import quotes.documents.words
from quotes.documents.words import (
    chance_in_words,
    day,
    estimate_in_words,
    figure,
    likely_in_words,
    money,
    percent_band,
    risk_in_words,
    whole_percent,
)

CHANCES = st.floats(min_value=0, max_value=1)


def test_the_examples_in_the_word_modules_hold() -> None:
    for module in (quotes.calc.sheet.words, quotes.calc.sheet.lock_words, quotes.documents.words):
        result = doctest.testmod(module)
        assert result.attempted > 0
        assert result.failed == 0


@given(CHANCES)
def test_no_chance_is_ever_said_to_be_certain(chance: float) -> None:
    for words in (chance_in_words(chance), whole_percent(chance)):
        assert not re.search(r"\b(20 in 20|0 in 20|100\s%|0\s%$)", words.replace("under 1", "")), words


@given(CHANCES)
def test_no_chance_is_said_with_a_third_figure(chance: float) -> None:
    """Out of two hundred is said of one chance alone: that of being stopped once in them."""
    said = f"{chance_in_words(chance)} {whole_percent(chance)}".replace("199 in 200", "")
    assert not re.search(r"\d{3}|\d[.,]\d", said)


@given(CHANCES, CHANCES)
def test_a_better_chance_is_never_said_with_fewer_seasons(one: float, other: float) -> None:
    low, high = sorted((one, other))

    def count(chance: float) -> float:
        words = chance_in_words(chance)
        found = re.search(r"(\d+) in (\d+)", words)
        assert found
        of = int(found.group(2))
        return (int(found.group(1)) + {"more": 1, "less": -1}.get(words.split()[0], 0)) * 200 / of

    assert count(low) <= count(high)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.0, 0.01, "likely less than 1"),
        (0.2, 0.9, "likely 4 to 18"),
        (0.975, 0.999, "likely more than 19"),
        (0.9, 0.999, "likely 18 or more"),
    ],
)
def test_the_band_is_counted_out_of_twenty(low: float, high: float, words: str) -> None:
    assert likely_in_words(low, high) == words


@pytest.mark.parametrize(
    ("chance", "words", "per_cent"),
    [
        (1e-9, "less than 1 in 20", "under 1 %"),
        (0.0249, "less than 1 in 20", "2 %"),
        (0.025, "about 1 in 20", "3 %"),
        (0.005, "less than 1 in 20", "1 %"),
        (0.5, "about 10 in 20", "50 %"),
        (0.924, "about 18 in 20", "92 %"),
        (0.925, "about 19 in 20", "93 %"),
        (0.9749, "about 19 in 20", "97 %"),
        (0.975, "more than 19 in 20", "98 %"),
        (0.9949, "more than 19 in 20", "99 %"),
        (0.995, "about 199 in 200", "over 99 %"),
        (0.9974, "about 199 in 200", "over 99 %"),
        (0.9976, "more than 199 in 200", "over 99 %"),
        (1 - 1e-9, "more than 199 in 200", "over 99 %"),
    ],
)
def test_one_rule_rounds_every_chance(chance: float, words: str, per_cent: str) -> None:
    assert chance_in_words(chance) == words
    assert whole_percent(chance).replace("\N{NO-BREAK SPACE}", " ") == per_cent


def test_a_band_in_per_cent_stays_inside_one_and_ninety_nine() -> None:
    assert percent_band(0.0, 1.0) == "1 to 99\N{NO-BREAK SPACE}%"


def test_a_risk_too_small_to_count_is_said_as_less_than_one_in_a_hundred() -> None:
    assert risk_in_words(0.49) == "less than 1 in 100"


@pytest.mark.parametrize(
    ("currency", "decimals", "language", "words"),
    [
        ("USD", 2, "en", "$1,234.50"),
        ("EUR", 2, "en", "€1,234.50"),
        ("EUR", 2, "de", "1.234,50\N{NO-BREAK SPACE}€"),
        ("HUF", 0, "en", "HUF\N{NO-BREAK SPACE}1,235"),
        ("CHF", 2, "en", "CHF\N{NO-BREAK SPACE}1,234.50"),
    ],
)
def test_money_is_written_with_its_sign_and_the_currencys_own_decimals(
    currency: str, decimals: int, language: str, words: str
) -> None:
    assert money(Decimal("1234.50"), currency, decimals, language) == words


def test_half_a_cent_is_rounded_away_from_nought() -> None:
    assert (figure(Decimal("2.345")), figure(Decimal("-2.345"))) == ("2.35", "-2.35")


def test_a_date_has_its_month_in_letters() -> None:
    assert day(date(2027, 1, 2)) == "2\N{NO-BREAK SPACE}Jan\N{NO-BREAK SPACE}2027"


def test_an_estimate_of_use_bears_no_more_figures_than_its_evidence() -> None:
    assert estimate_in_words(2034.9, "mi") == "2,030 miles"
