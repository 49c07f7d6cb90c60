"""What the customer's page is told of a sheet: finished words and drawings, no sums."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from catalogue.calc.said import say
from quotes.calc.money.extras import Extra, extras_of
from quotes.calc.sheet.issued_values import Heading, Sheet
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents import itemised, reasons
from quotes.documents.causes import where_it_goes
from quotes.documents.figures import ways_of
from quotes.documents.glance import Way, attention, glance, ready_rows, rests_on
from quotes.documents.letterhead import engine_in_words
from quotes.documents.lives import life_used
from quotes.documents.money_figure import money_figure
from quotes.documents.questions import columns, questions
from quotes.documents.season import season_tables
from quotes.documents.tune import tune_table
from quotes.documents.verdict import differences, same_as, verdict, ways_in_words
from quotes.documents.words import (
    currency_in_words,
    first_large,
    inside,
    listed,
    long_day,
    money,
    percent,
    plain_name,
)


@dataclass(frozen=True, slots=True)
class PricedExtra:
    """An extra as it stands beside its tick box; `more` is the most it adds, with tax."""

    component: str
    name: str
    sentence: str
    more: str


def customer_sheet(sheet: Sheet) -> dict[str, Any]:
    """Everything on the page but what has been said on it."""
    comparison, language = sheet.comparison, sheet.heading.language
    return {
        **heading_words(sheet),
        "ways": ways_in_words(comparison),
        "firm": comparison.firm,
        "verdict": verdict(comparison, language),
        "glance": [_drawn(way) for way in glance(comparison, language)],
        "money": money_figure(comparison, language),
        "lives": life_used(ways_of(comparison)),
        "causes": where_it_goes(ways_of(comparison)),
        "columns": columns(comparison),
        "questions": questions(comparison, language, sheet.heading.class_name),
        "seasons": season_tables(comparison, language),
        "tune": tune_table(comparison),
        "attention": attention(comparison),
        "options": [option_words(option, comparison, language) for option in comparison.options],
        "differences": differences(comparison, language),
        "ready": ready_rows(comparison, language),
        "rests_on": rests_on(sheet),
        "sheet": sheet,
    }


def heading_words(sheet: Sheet) -> dict[str, Any]:
    """Head and title strip, for the page and its receipt."""
    heading: Heading = sheet.heading
    language = heading.language
    return {
        "heading": heading,
        "call": "".join(letter for letter in heading.workshop.telephone if letter in "+0123456789"),
        "issued_on": long_day(heading.issued_on, language),
        "valid_until": long_day(heading.valid_until, language),
        "planned": first_large(sheet.comparison.planned_in_words),
        "currency": currency_in_words(sheet.comparison.currency, language),
        "engine": engine_in_words(heading),
    }


def option_words(option: Option, comparison: Comparison, language: str) -> dict[str, Any]:
    """One option: what it costs, its steps, what is renewed and left, and what may be ticked on top."""

    def words(amount: Decimal) -> str:
        return money(amount, comparison.currency, comparison.decimals, language)

    return {
        "tier": option.tier,
        "name": option.name,
        "inside": inside(option.name),
        "same_as": same_as(option, comparison),
        "purpose": first_large(option.purpose),
        "gross": words(option.gross.typical),
        "between": ""
        if comparison.firm
        else say("{low} and {high}", low=words(option.gross.low), high=words(option.gross.high)),
        "deposit": words(option.deposit),
        "ladder": itemised.ladder(option, comparison, language),
        "opened": option.season is not None,
        "renewed": reasons.renewed(option),
        "kept": reasons.kept(option, comparison, language),
        "safety": listed([inside(plain_name(risk.name)) for risk in reasons.safety_left(option)]),
        "leaves_safety": reasons.leaves_safety(option),
        "if_needed": itemised.if_needed(option, comparison, language),
        "extras": [_priced(extra, comparison, language) for extra in extras_of(option, comparison.decimals)],
    }


def limit_note(sheet: Sheet) -> str:
    """0.00 unless they write otherwise, and what we would suggest."""
    pct = sheet.limit_without_asking_pct
    if not pct:
        return say("0.00 means that you are asked first.")
    share = percent(pct, sheet.heading.language)
    return say("0.00 means that you are asked first. We suggest up to {share} of the sum.", share=share)


def _priced(extra: Extra, comparison: Comparison, language: str) -> PricedExtra:
    return PricedExtra(
        extra.component,
        first_large(plain_name(extra.name)),
        extra.sentence,
        money(extra.gross, comparison.currency, comparison.decimals, language),
    )


def _drawn(way: Way) -> tuple[Way, SafeString]:
    return way, mark_safe(way.leaves)
