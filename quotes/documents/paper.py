"""What the templates of the paper documents are told: finished words, no sums."""

from __future__ import annotations

from typing import Any

from django.utils.safestring import mark_safe

from catalogue.calc.said import say
from quotes.calc.money.accepted import AcceptedValue
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents import itemised, reasons
from quotes.documents.causes import where_it_goes
from quotes.documents.figures import ways_of
from quotes.documents.glance import attention, glance, ready_rows, rests_on
from quotes.documents.letterhead import engine_in_words
from quotes.documents.lives import life_used
from quotes.documents.picture import money_against_chance, picture_notes, scale_starts_at
from quotes.documents.questions import columns, questions
from quotes.documents.season import season_tables
from quotes.documents.tune import tune_table
from quotes.documents.verdict import differences, same_as, verdict, ways_in_words
from quotes.documents.words import (
    NO_BREAK,
    currency_in_words,
    figure,
    inside,
    listed,
    long_day,
    money,
    percent,
)


def heading_context(sheet: Sheet, document: str) -> dict[str, Any]:
    """Head, title strip and foot."""
    heading = sheet.heading
    shop, language = heading.workshop, heading.language
    number = say("{number}, revision {revision}", number=heading.number, revision=heading.revision)
    dated = long_day(heading.issued_on, language)
    return {
        "heading": heading,
        "title": f"{document} {number}: {heading.engine_name} {heading.engine_number}",
        "foot": f"{shop.name} · {document} {number} · {dated}",
        "at": [*shop.lines, *filter(None, (shop.telephone, shop.email, shop.tax_registration))],
        "made": f"{heading.issued_on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            (say("Quote"), number),
            (say("Dated"), dated),
            (say("Stands until"), long_day(heading.valid_until, language)),
            (say("Engine"), engine_in_words(heading)),
        ),
        "currency": currency_in_words(sheet.comparison.currency, language),
        "valid_until": long_day(heading.valid_until, language),
        "terms": sheet.terms,
        "cautions": sheet.cautions,
        "honesty": sheet.honesty,
    }


def quote_context(sheet: Sheet) -> dict[str, Any]:
    """Everything that the quote says."""
    comparison, language = sheet.comparison, sheet.heading.language
    return {
        **heading_context(sheet, say("Quote")),
        **_comparison_context(sheet),
        "options": [option_context(option, comparison, language) for option in comparison.options],
        "renewed": reasons.renewed_across(comparison),
        "kept": reasons.kept_across(comparison),
        "small": reasons.small_across(comparison),
        "safety": reasons.safety_warnings(comparison),
        "differences": differences(comparison, language),
        "attention": attention(comparison),
        "changes": sheet.changes,
        "rests_on": rests_on(sheet),
        "limit_pct": percent(sheet.limit_without_asking_pct, language),
    }


def _comparison_context(sheet: Sheet) -> dict[str, Any]:
    comparison, language = sheet.comparison, sheet.heading.language
    return {
        "ways": ways_in_words(comparison),
        "planned": comparison.planned_in_words,
        "firm": comparison.firm,
        "verdict": verdict(comparison, language),
        "glance": [(way, mark_safe(way.leaves)) for way in glance(comparison, language)],
        "picture": mark_safe(money_against_chance(comparison, "paper", language)),
        "starts_at": scale_starts_at(comparison),
        "picture_notes": picture_notes(comparison),
        "lives": life_used(ways_of(comparison)),
        "causes": where_it_goes(ways_of(comparison)),
        "columns": columns(comparison),
        "questions": questions(comparison, language, sheet.heading.class_name),
        "seasons": season_tables(comparison, language),
        "tune": tune_table(comparison),
        "ready": ready_rows(comparison, language),
    }


def option_context(option: Option, comparison: Comparison, language: str) -> dict[str, Any]:
    """One option: its steps, its lines, its sums."""

    def words(amount: Any) -> str:
        return money(amount, comparison.currency, comparison.decimals, language)

    saved = option.shared_hours_saved
    return {
        "tier": option.tier,
        "name": option.name,
        "inside": inside(option.name),
        "same_as": same_as(option, comparison),
        "hours": figure(option.hours, 1, language),
        "saved": figure(saved, 1, language) if saved else "",
        "gross": words(option.gross.typical),
        "between": ""
        if comparison.firm
        else say("{low} and {high}", low=words(option.gross.low), high=words(option.gross.high)),
        "deposit": words(option.deposit),
        "ladder": itemised.ladder(option, comparison, language),
        "opened": option.season is not None,
        "sections": itemised.sections(option, comparison, language),
        "sums": itemised.sums(option, comparison, language),
        "if_needed": itemised.if_needed(option, comparison, language),
        "safety": listed([inside(risk.name) for risk in reasons.safety_left(option)]),
    }


def receipt_context(sheet: Sheet, accepted: AcceptedValue) -> dict[str, Any]:
    """What was said yes to, by whom, up to what sum, and what was shown."""
    comparison, language = sheet.comparison, sheet.heading.language
    option = comparison.option(accepted.tier)
    at = accepted.accepted_at

    def words(amount: Any) -> str:
        return money(amount, comparison.currency, comparison.decimals, language)

    return {
        **heading_context(sheet, say("Accepted quote")),
        "made": f"{at:%Y-%m-%dT%H:%M:%S}Z",
        "accepted": accepted,
        "when": f"{long_day(at.date(), language)}, {at:%H:%M}".replace(" ", NO_BREAK),
        "option": option_context(option, comparison, language),
        "gross": words(accepted.gross),
        "limit": words(accepted.limit_sum),
        "deposit": words(accepted.deposit),
        "extras": listed(list(accepted.extras)),
        "renewed": reasons.renewed(option),
        "kept": reasons.kept(option, comparison, language),
        "fingerprint": accepted.sheet_sha256,
    }
