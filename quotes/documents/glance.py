"""Leave it and the options at a glance, and when each is ready: words for page and paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.base_values import Ready, Service
from quotes.calc.sheet.chance_values import Chance
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.documents.answers import EMPTY
from quotes.documents.drawing.leaves import twenty_leaves
from quotes.documents.words import (
    NO_BREAK,
    bare_chance,
    chance_in_words,
    day,
    estimate_in_words,
    inside,
    likely_beside,
    low_to_high,
    round_money,
    times_in_words,
)


@dataclass(frozen=True, slots=True)
class GlanceFact:
    """One answer that stands in the same place in every row; `beside` says how it is meant."""

    asked: str
    words: str
    beside: str = ""


@dataclass(frozen=True, slots=True)
class Way:
    """One row of the glance. `leaves` is SVG; `tier` is empty for leave it.

    `lines` has what must be said of this way alone, before it is sold.
    """

    tier: str
    name: str
    price: str
    between: str
    leaves: str
    finishes: str
    likely: str
    facts: tuple[GlanceFact, ...]
    lines: tuple[str, ...]
    warning: str = ""
    """Said before the lines, where nobody would sell it so."""


@dataclass(frozen=True, slots=True)
class ReadyRow:
    """One row of dates; `total` is the promise."""

    words: str
    cells: tuple[str, ...]
    total: bool = False


_READY: tuple[tuple[str, Callable[[Ready], date], bool], ...] = (
    (to_say("Even chance"), lambda ready: ready.typical, False),
    (to_say("We promise, 8 in 10"), lambda ready: ready.p80, True),
    (to_say("Nearly sure, 9 in 10"), lambda ready: ready.p90, False),
)


def glance(comparison: Comparison, language: str = "") -> tuple[Way, ...]:
    """Leave it first, then the options in their own order."""
    return (
        _leave(comparison.leave_it, comparison, language),
        *(_way(option, comparison, language) for option in comparison.options),
    )


def ready_rows(comparison: Comparison, language: str = "") -> tuple[ReadyRow, ...]:
    """When each option is ready, by how sure we are."""
    return tuple(
        ReadyRow(say(words), tuple(day(pick(option.ready), language) for option in comparison.options), total)
        for words, pick, total in _READY
    )


def rests_on(sheet: Sheet) -> tuple[str, ...]:
    """What the figures take for granted: the past, and what is assumed of the season."""
    return (*sheet.comparison.history_in_words, *sheet.comparison.assumptions)


def attention(comparison: Comparison) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What has to be said of a column before it is sold, and its notes; named as inside a sentence."""
    columns: tuple[LeaveIt | Option, ...] = (comparison.leave_it, *comparison.options)
    said = ((inside(column.name), (*column.attention, *column.notes)) for column in columns)
    return tuple((name, sentences) for name, sentences in said if sentences)


def before_sold(comparison: Comparison) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What has to be said of an option while the customer is on the telephone: leaving it needs no word."""
    return tuple(said for said in attention(comparison) if said[0] != inside(comparison.leave_it.name))


def _leave(leave: LeaveIt, comparison: Comparison, language: str) -> Way:
    return Way(
        tier="",
        name=leave.name,
        price=round_money(leave.gross, comparison.currency, language),
        between="",
        leaves=twenty_leaves(leave.chance, leave.name),
        finishes=_finishes(leave.chance),
        likely=_likely(leave.chance),
        facts=(
            GlanceFact(say("Power"), say("as it is")),
            _good_for(leave.good_for, comparison),
            GlanceFact(say("Ready by"), EMPTY.words),
        ),
        lines=_aim(leave.chance),
    )


def _way(option: Option, comparison: Comparison, language: str) -> Way:
    low, high = (
        round_money(each, comparison.currency, language) for each in (option.gross.low, option.gross.high)
    )
    return Way(
        tier=option.tier,
        name=option.name,
        price=round_money(option.gross.typical, comparison.currency, language),
        between="" if comparison.firm else low_to_high(low, high),
        leaves=twenty_leaves(option.chance, option.name),
        finishes=_finishes(option.chance),
        likely=_likely(option.chance),
        facts=(
            _gives(option),
            _good_for(option.good_for, comparison),
            GlanceFact(say("Ready by"), day(option.ready.p80, language), say("8 in 10")),
        ),
        lines=(*_openings(option, comparison, language), *_aim(option.chance)),
        warning=say("We would not sell it so for this season.") if option.oversold else "",
    )


def _openings(option: Option, comparison: Comparison, language: str) -> tuple[str, ...]:
    """What the chance beside it costs, where it stands on openings that are not in the first price."""
    if option.season is None:
        return ()
    often = times_in_words(len(option.season.openings))
    whole = round_money(option.season.gross.typical, comparison.currency, language)
    return (say("Opened {often} on the way, {price} in all.", often=often, price=whole),)


def _gives(option: Option) -> GlanceFact:
    """Against a sound standard engine; a gain that may be nothing is said as nothing."""
    gain = option.power_gain_pct
    if round(gain.typical) < 1:
        return GlanceFact(say("Power"), say("as new"))
    return GlanceFact(
        say("Power"),
        f"+{gain.typical:.0f}{NO_BREAK}%",
        say("{low} to {high}", low=f"{gain.low:.0f}", high=f"{gain.high:.0f}{NO_BREAK}%"),
    )


def _good_for(service: Service, comparison: Comparison) -> GlanceFact:
    """How far, and whether that is as far as they want to go."""
    if service.amount < 1:
        return GlanceFact(say("Good for"), say("due now"), say("a part of it"))
    planned, words = comparison.planned, estimate_in_words(service.amount, service.unit)
    if service.unit != planned.unit:
        return GlanceFact(say("Good for"), words)
    if service.amount >= planned.amount:
        return GlanceFact(say("Good for"), words, say("the whole season"))
    return GlanceFact(
        say("Good for"),
        words,
        say("of {planned}", planned=estimate_in_words(planned.amount, planned.unit)),
    )


def _finishes(chance: Chance) -> str:
    words = chance_in_words(chance.value)
    return f"{words[:1].upper()}{words[1:]}"


def _likely(chance: Chance) -> str:
    return likely_beside(chance.value, chance.low, chance.high)


def _aim(chance: Chance) -> tuple[str, ...]:
    if chance.target is None:
        return ()
    aim = bare_chance(chance.target)
    if not chance.target_met:
        return (say("The aim of {aim} is not reached.", aim=aim),)
    if chance.to_first_opening is None:
        return ()
    return (say("The aim of {aim} holds up to its opening.", aim=aim),)
