"""What one option gives: its chance with the band, how far it is good for, when it is ready, its cost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.said import say, say_count
from quotes.calc.sheet.lock_words import past_ceiling_in_words
from quotes.calc.sheet.name_words import inside, listed_up_to, plain_name
from quotes.calc.sheet.values import LeaveIt, Option
from quotes.calc.sheet.words import (
    chance_in_words,
    estimate_in_words,
    percent_band,
    risk_band,
    risk_in_words,
    whole_percent,
)
from quotes.documents.answers import usual_season
from quotes.documents.words import day, figure

NAMED = 3
"""Parts that fall due, by name; the figure opens to all of them."""


@dataclass(frozen=True, slots=True)
class Gives:
    """One answer of the option. `key` opens it to its parts."""

    question: str
    words: str
    key: str
    note: str = ""


def what_it_gives(option: Option) -> Iterable[Gives]:
    """The figures of an option that are neither a line nor an hour."""
    yield from _of_any(option)
    yield Gives(say("Ready"), day(option.ready.p80), "ready", say("8 in 10"))
    if option.season is not None:
        whole = figure(option.planned_gross.typical)
        yield Gives(say("The planned service, its openings made"), whole, "season", say("with tax"))
    taxed = ", ".join(filter(None, (say("with tax"), usual_season(option))))
    yield Gives(say("Cost for a season"), figure(option.cost_per_season), "per_season", taxed)
    if option.expected_loss is not None:
        yield _with_loss(option.expected_loss)
    yield Gives(say("Deposit"), figure(option.deposit), "deposit")


def what_leaving_gives(leave: LeaveIt) -> Iterable[Gives]:
    """The figures of the engine left as it is."""
    yield from _of_any(leave)
    names = [inside(plain_name(due.name)) for due in leave.falls_due]
    due = say_count("{count} part", "{count} parts", len(names)) if names else say("nothing")
    yield Gives(say("Falls due"), due, "falls_due", listed_up_to(NAMED, names, say("more")))
    yield Gives(say("Oil and filter"), figure(leave.gross), "gross", say("with tax"))
    if leave.expected_loss is not None:
        yield _with_loss(leave.expected_loss)


def _with_loss(sum_: Decimal) -> Gives:
    return Gives(say("With the loss named, weighed"), figure(sum_), "expected_loss", say("with tax"))


def _of_any(way: Option | LeaveIt) -> Iterable[Gives]:
    chance, lock, good = way.chance, way.wheel_lock, way.good_for
    yield Gives(
        say("Finishes"),
        f"{chance_in_words(chance.value)}, {whole_percent(chance.value)}",
        "chance",
        say("likely {band}", band=percent_band(chance.low, chance.high)),
    )
    band = "" if lock.low is None or lock.high is None else risk_band(lock.low, lock.high)
    ceiling = past_ceiling_in_words(lock)
    if lock.met:
        ceiling = say("within our ceiling of {ceiling}", ceiling=whole_percent(lock.ceiling))
    yield Gives(
        say("Locks the wheel or oils the tyre"),
        risk_in_words(100 * lock.value),
        "wheel_lock",
        ", ".join(part for part in (band, ceiling) if part),
    )
    yield Gives(
        say("Good for"),
        estimate_in_words(good.amount, good.unit),
        "good_for",
        plain_name(way.good_for_reason),
    )
