"""What is said on the phone about one request: a band for each option, and when it could be on the bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import say, say_count
from quotes.calc.ask.request import Value
from quotes.calc.bench_words import hours_in_words
from quotes.calc.dates.before_date import before_date
from quotes.calc.dates.open_days import ONE_DAY, is_open
from quotes.calc.dates.slots import NOTHING, Bench, Promise, Slot, next_slot
from quotes.calc.money.band import SUBJECT_TO, SpokenRule, spoken_band
from quotes.calc.said_days import said_day
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.values import Comparison, Option
from quotes.calc.shop import Queue

AgainstBudget = Literal["", "within", "may go above", "above"]


class SaidSlot(Value):
    """The week in which an engine could begin, and what follows from it."""

    start: date
    arrive_by: date
    ready_on: date
    in_time: bool | None
    """Ready before the day it is needed; None where no day was named."""


class SaidOption(Value):
    """One option as it is said: a band with tax, bench hours, the earliest week."""

    tier: str
    name: str
    low: Decimal
    high: Decimal
    gross: Spread
    """The worked band that the spoken one was rounded from."""
    hours: Decimal
    slot: SaidSlot | None
    against_budget: AgainstBudget = ""


class Said(Value):
    """Everything that was said, frozen with the enquiry."""

    on: date
    engine_name: str
    history: tuple[str, ...]
    planned: str
    target: str
    currency: str
    decimals: int
    subject_to: str
    options: tuple[SaidOption, ...]
    sentences: tuple[str, ...]

    def option(self, tier: str) -> SaidOption | None:
        return next((option for option in self.options if option.tier == tier), None)


@dataclass(frozen=True, slots=True)
class Diary:
    """The bench as it is promised, and the rules that were laid on it."""

    bench: Bench
    queue: Queue
    promises: tuple[Promise, ...]


def what_is_said(
    comparison: Comparison,
    diary: Diary,
    rule: SpokenRule,
    *,
    needed_on: date | None = None,
    budget: Decimal | None = None,
) -> Said:
    """The bands and slots of a comparison. `budget` is a sum with tax, in the shop's currency."""
    options = tuple(_option(option, diary, rule, needed_on, budget) for option in comparison.options)
    return Said(
        on=diary.bench.on,
        engine_name=comparison.engine_type_name,
        history=comparison.history_in_words,
        planned=comparison.planned_in_words,
        target=comparison.target_in_words,
        currency=comparison.currency,
        decimals=comparison.decimals,
        subject_to="" if comparison.firm else SUBJECT_TO,
        options=options,
        sentences=_sentences(options, diary, needed_on),
    )


def slot_lead(option: Option, diary: Diary) -> int:
    """Open days from the first hour on the bench until the engine is ready, 8 times in 10.

    Parts and machine work are in it; the queue that stood before the bench at the time is not.
    """
    closed = diary.bench.closed_days
    days = (option.ready.p80 - diary.bench.on).days
    open_days = sum(is_open(diary.bench.on + ONE_DAY * index, closed) for index in range(1, days + 1))
    waiting = diary.queue.hours_in_hand // diary.queue.bench_hours_a_day
    return max(0, open_days - int(waiting))


def _option(
    option: Option, diary: Diary, rule: SpokenRule, needed_on: date | None, budget: Decimal | None
) -> SaidOption:
    band = spoken_band(option.gross, rule)
    slot = None
    if option.hours > NOTHING:
        slot = next_slot(diary.bench, option.hours, lead_days=slot_lead(option, diary))
    return SaidOption(
        tier=option.tier,
        name=option.name,
        low=band.low,
        high=band.high,
        gross=option.gross,
        hours=option.hours,
        slot=_slot(slot, needed_on) if slot else None,
        against_budget=_against(band.low, band.high, budget),
    )


def _slot(slot: Slot, needed_on: date | None) -> SaidSlot:
    return SaidSlot(
        start=slot.start,
        arrive_by=slot.arrive_by,
        ready_on=slot.ready_on,
        in_time=None if needed_on is None else slot.ready_on < needed_on,
    )


def _against(low: Decimal, high: Decimal, budget: Decimal | None) -> AgainstBudget:
    if budget is None:
        return ""
    if high <= budget:
        return "within"
    return "above" if low > budget else "may go above"


def _sentences(options: Sequence[SaidOption], diary: Diary, needed_on: date | None) -> tuple[str, ...]:
    said = []
    if any(option.slot is None for option in options):
        said.append(say("The bench is promised as far as we plan: no week can be named yet."))
    if needed_on is not None:
        said += before_in_words(options, diary, needed_on)
    return tuple(said)


def before_in_words(options: Sequence[SaidOption], diary: Diary, needed_on: date) -> list[str]:
    """How the weeks before the day stand, and who else wants their engine for it."""
    stand = before_date(diary.bench, None, needed_on, diary.promises)
    day = said_day(needed_on)
    late = [option.name for option in options if not (option.slot and option.slot.in_time)]
    said = []
    if stand.full:
        said.append(
            say(
                "The weeks before {day} are full: all {there_is} bench hours are promised.",
                day=day,
                there_is=hours_in_words(stand.there_is),
            )
        )
    elif late:
        free, there_is = hours_in_words(stand.free), hours_in_words(stand.there_is)
        said.append(
            say(
                "Before {day}, {free} of {there_is} bench hours are free.",
                day=day,
                free=free,
                there_is=there_is,
            )
        )
    if stand.same_day:
        said.append(
            say_count(
                "{count} other engine is promised for that same day.",
                "{count} other engines are promised for that same day.",
                stand.same_day,
            )
        )
    if late:
        said.append(say("Not ready by then: {options}.", options=", ".join(late)))
    return said
