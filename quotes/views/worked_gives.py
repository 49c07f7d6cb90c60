"""What one option gives: its chance with the band, how far it is good for, when it is ready, its cost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

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
    yield Gives("Ready", day(option.ready.p80), "ready", "8 in 10")
    if option.season is not None:
        whole = figure(option.planned_gross.typical)
        yield Gives("The planned service, its openings made", whole, "season", "with tax")
    yield Gives("Cost for a season", figure(option.cost_per_season), "per_season", "with tax")
    if option.expected_loss is not None:
        yield Gives("With the loss named, weighed", figure(option.expected_loss), "expected_loss", "with tax")
    yield Gives("Deposit", figure(option.deposit), "deposit")


def what_leaving_gives(leave: LeaveIt) -> Iterable[Gives]:
    """The figures of the engine left as it is."""
    yield from _of_any(leave)
    names = [inside(plain_name(due.name)) for due in leave.falls_due]
    due = "nothing" if not names else "1 part" if len(names) == 1 else f"{len(names)} parts"
    yield Gives("Falls due", due, "falls_due", listed_up_to(NAMED, names, "more"))
    yield Gives("Oil and filter", figure(leave.gross), "gross", "with tax")
    if leave.expected_loss is not None:
        yield Gives("With the loss named, weighed", figure(leave.expected_loss), "expected_loss", "with tax")


def _of_any(way: Option | LeaveIt) -> Iterable[Gives]:
    chance, lock, good = way.chance, way.wheel_lock, way.good_for
    yield Gives(
        "Finishes",
        f"{chance_in_words(chance.value)}, {whole_percent(chance.value)}",
        "chance",
        f"likely {percent_band(chance.low, chance.high)}",
    )
    band = "" if lock.low is None or lock.high is None else f"{risk_band(lock.low, lock.high)}, "
    ceiling = past_ceiling_in_words(lock)
    if lock.met:
        ceiling = f"within our ceiling of {whole_percent(lock.ceiling)}"
    yield Gives(
        "Locks the wheel or oils the tyre",
        risk_in_words(100 * lock.value),
        "wheel_lock",
        f"{band}{ceiling}",
    )
    yield Gives(
        "Good for", estimate_in_words(good.amount, good.unit), "good_for", plain_name(way.good_for_reason)
    )
