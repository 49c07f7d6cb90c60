"""The season as planned, service by service: words for page and paper."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import say
from quotes.calc.sheet.season_values import SeasonPlan, SeasonService
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.words import (
    NO_BREAK,
    chance_in_words,
    day,
    estimate_in_words,
    first_large,
    inside,
    likely_beside,
    listed_up_to,
    long_day,
    plain_name,
    round_money,
)

NAMED = 4
"""Parts named for an opening; the quote for it will name them all."""


@dataclass(frozen=True, slots=True)
class SeasonRow:
    """One service of the season, or the whole of it."""

    at: str
    dates: str
    done: str
    parts: str
    price: str
    chance: str
    likely: str
    key: str = ""
    """By which its figures open."""


@dataclass(frozen=True, slots=True)
class SeasonTable:
    """The season of one option."""

    name: str
    sentence: str
    rows: tuple[SeasonRow, ...]
    whole: SeasonRow
    notes: tuple[str, ...]


def season_tables(comparison: Comparison, language: str = "") -> tuple[SeasonTable, ...]:
    """The seasons of a comparison, of the options that are opened on the way."""
    found = (season_table(option, comparison, language) for option in comparison.options)
    return tuple(table for table in found if table is not None)


def season_table(option: Option, comparison: Comparison, language: str = "") -> SeasonTable | None:
    """The season of one option; None where it is run through."""
    plan = option.season
    if plan is None:
        return None
    planned = estimate_in_words(comparison.planned.amount, comparison.planned.unit)
    whole = SeasonRow(
        at=first_large(say("all {amount}", amount=planned)),
        dates="",
        done=say("The whole season"),
        parts="",
        price=round_money(plan.gross.typical, comparison.currency, language),
        chance=chance_in_words(plan.chance.value),
        likely=likely_beside(plan.chance.value, plan.chance.low, plan.chance.high),
    )
    return SeasonTable(
        name=option.name,
        sentence=plan.sentence,
        rows=tuple(_row(each, comparison, language) for each in plan.services),
        whole=whole,
        notes=_notes(option, plan, comparison, language),
    )


def _row(each: SeasonService, comparison: Comparison, language: str) -> SeasonRow:
    first, ready = (
        each.number == 1,
        say("ready {day}", day=day(each.ready.p80, language)).replace(" ", NO_BREAK),
    )
    opened = say("about {day}", day=day(each.opened_on, language))
    names = [inside(plain_name(name)) for name in each.renewed.values()]
    return SeasonRow(
        at=say("Start") if first else estimate_in_words(each.begins.amount, each.begins.unit),
        dates=ready if first else f"{opened}, {ready}",
        done=first_large(each.done),
        parts="" if first else listed_up_to(NAMED, names, say("more parts")),
        price=round_money(each.gross.typical, comparison.currency, language),
        chance=chance_in_words(each.chance.value),
        likely=likely_beside(each.chance.value, each.chance.low, each.chance.high),
        key=f"service:{each.number}",
    )


def _notes(option: Option, plan: SeasonPlan, comparison: Comparison, language: str) -> tuple[str, ...]:
    low, high = (
        round_money(sum_, comparison.currency, language) for sum_ in (plan.gross.low, plan.gross.high)
    )
    return (
        say(
            "With tax, between {low} and {high} in all; the openings are at today's prices.",
            low=low,
            high=high,
        ),
        say(
            "Dates: use spread evenly over the year from {day}, parts ordered ahead and a bench that is free "
            "then.",
            day=long_day(plan.begins_on, language),
        ),
        say(
            "Run through without an opening, {option} finishes {chance}.",
            option=inside(option.name),
            chance=chance_in_words(plan.run_through.value),
        ),
    )
