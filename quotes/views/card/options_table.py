"""The options as rows of questions: the same words on the new-quote card and wherever the desk compares."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.said import say, say_count, say_figure, to_say
from quotes.calc.ask.request import Unit
from quotes.calc.money.band import SpokenRule, spoken_band
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.chance_values import Chance, WheelLock
from quotes.calc.sheet.values import Comparison, LeaveIt, Option, Range
from quotes.calc.sheet.words import (
    OUT_OF,
    chance_in_words,
    estimate_in_words,
    likely_in_words,
    listed,
    risk_band,
    risk_count,
    whole_percent,
)
from quotes.documents.verdict import verdict
from quotes.documents.words import day, figure

Column = LeaveIt | Option


@dataclass(frozen=True, slots=True)
class CellWords:
    """What stands in one column of a row; `strong` where it wants to be seen first."""

    text: str
    strong: bool = False
    more: str = ""
    """A second line in plain weight."""


@dataclass(frozen=True, slots=True)
class Row:
    """One question and its answers, leave it first."""

    label: str
    cells: tuple[CellWords, ...]
    kind: str = ""
    """`say` for what is said aloud, `total` for the final sum."""


@dataclass(frozen=True, slots=True)
class OptionsTable:
    """The heads and rows of the comparison, and the sentence to say with it."""

    currency: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    tiers: tuple[str, ...]
    say: str
    spoken: str
    """What a screen reader says after a change: the bands and the chances, shortly."""


def options_table(comparison: Comparison, rule: SpokenRule, *, with_tax: bool = True) -> OptionsTable:
    """The comparison as the desk reads it on the telephone."""
    columns: tuple[Column, ...] = (comparison.leave_it, *comparison.options)
    bands = tuple(_band(column, rule, with_tax) for column in columns)
    rows = [Row(say("Say"), tuple(CellWords(band) for band in bands), "say")]
    rows += [Row(say(label), tuple(cell(column) for column in columns), kind) for label, cell, kind in _ROWS]
    if aim := _aim(comparison):
        rows.insert(4, Row(aim, tuple(_reached(column.chance) for column in columns)))
    if any(option.season for option in comparison.options):
        rows.insert(3, Row(say("The season, openings with it"), tuple(_season(column) for column in columns)))
    if any(option.breaks_class for option in comparison.options):
        rows.append(Row(say("Allowed in the class"), tuple(_allowed(column) for column in columns)))
    names = tuple(column.name for column in columns)
    return OptionsTable(
        currency=comparison.currency,
        heads=names,
        rows=tuple(row for row in rows if any(cell.text for cell in row.cells)),
        tiers=tuple(option.tier for option in comparison.options),
        say=verdict(comparison).lead,
        spoken=_spoken(columns, bands),
    )


def _band(column: Column, rule: SpokenRule, with_tax: bool) -> str:
    band = spoken_band(_spread(column.gross if with_tax else column.net), rule)
    return f"{figure(band.low, 0)}\N{EN DASH}{figure(band.high, 0)}"


def _spread(sum_: Spread | Decimal) -> Spread:
    return sum_ if isinstance(sum_, Spread) else Spread(low=sum_, typical=sum_, high=sum_)


def _money(sum_: Spread | Decimal) -> CellWords:
    return CellWords(figure(_spread(sum_).typical))


def _loss(column: Column) -> CellWords:
    """The price with the loss that the customer named, as often as the engine stops."""
    return CellWords("") if column.expected_loss is None else _money(column.expected_loss)


def _season(column: Column) -> CellWords:
    if isinstance(column, LeaveIt):
        return CellWords("")
    count = len(column.season.openings) if column.season else 0
    more = say_count("{count} opening", "{count} openings", count) if count else say("not opened")
    return CellWords(figure(column.planned_gross.typical), more=more)


def _finishes(column: Column) -> CellWords:
    chance = column.chance
    said = _bare(chance_in_words(chance.value), OUT_OF)
    band = likely_in_words(chance.low, chance.high)
    return CellWords(said, strong=True, more="" if band == say("likely {count}", count=said) else band)


def _per_meeting(column: Column) -> CellWords:
    chance = column.chance
    first, last = (_in_100(1 - share) for share in (chance.first_event, chance.last_event))
    band = _band_in_100(first, chance.first_event_high, chance.first_event_low)
    in_the_end = say("the last {count}", count=last) if first != last else ""
    more = ", ".join(part for part in (band, in_the_end) if part)
    return CellWords(first, more=more)


def _band_in_100(said: str, best: float | None, worst: float | None) -> str:
    """The band of a chance of finishing as stops in 100, where it is known and says more than the figure."""
    if best is None or worst is None:
        return ""
    band = _bare(risk_band(1 - best, 1 - worst), 100)
    likely = say("likely less than 1") if said == say("under 1") else say("likely {count}", count=said)
    return "" if band == likely else band


def _aim(comparison: Comparison) -> str:
    targets = [option.chance.target for option in comparison.options if option.chance.target is not None]
    if not targets:
        return ""
    asked = set(targets)
    if len(asked) > 1:
        return say("Its own aim")
    aim = asked.pop()
    return say("Aim of {chance}, {percent}", chance=_bare(chance_in_words(aim)), percent=whole_percent(aim))


def _reached(chance: Chance) -> CellWords:
    if chance.target is None:
        return CellWords("")
    return CellWords(say("reached")) if chance.target_met else CellWords(say("not reached"), strong=True)


def _allowed(column: Column) -> CellWords:
    if isinstance(column, LeaveIt):
        return CellWords("")
    if not column.breaks_class:
        return CellWords(say("yes"))
    return CellWords(say("no"), strong=True, more=listed(column.breaks_class))


def _locks_wheel(column: Column) -> CellWords:
    lock: WheelLock = column.wheel_lock
    band = "" if lock.low is None or lock.high is None else risk_band(lock.low, lock.high)
    ceiling = say("ceiling {count}", count=_in_100(lock.ceiling))
    more = ", ".join(part for part in (_bare(band, 100), ceiling) if part)
    if lock.met:
        return CellWords(_in_100(lock.value), more=more)
    return CellWords(say("{count}, too many", count=_in_100(lock.value)), strong=True, more=more)


def _power(column: Column) -> CellWords:
    if isinstance(column, LeaveIt):
        return CellWords(say("as it is"))
    gain: Range = column.power_gain_pct
    if gain.typical == 0:
        return CellWords(say("as new"))
    low, typical, high = (say_figure(each, 0) for each in (gain.low, gain.typical, gain.high))
    return CellWords(f"+{typical} %", more=say("{low} to {high}", low=low, high=high))


def _good_for(column: Column) -> CellWords:
    return CellWords(_service(column.good_for.amount, column.good_for.unit))


def _first_due(column: Column) -> CellWords:
    due = column.first_due if isinstance(column, Option) else next(iter(column.falls_due), None)
    if due is None:
        return CellWords(say("none near its life"))
    name = due.name.partition(" (")[0]
    return CellWords(name, more=say("due already") if due.amount <= 0 else _service(due.amount, due.unit))


def _hours(column: Column) -> CellWords:
    return CellWords(figure(column.hours, 1))


def _ready(column: Column) -> CellWords:
    return CellWords(day(column.ready.p80)) if isinstance(column, Option) else CellWords("")


def _service(amount: float, unit: Unit) -> str:
    return estimate_in_words(amount, unit)


def _in_100(share: float) -> str:
    return _bare(risk_count(100 * share))


def _bare(said: str, out_of: int = 0) -> str:
    """A chance without its "about", and without what it is counted out of where the row says that."""
    said = said.removeprefix(say("about {count}", count=""))
    return said.removesuffix(say("{band} in {out_of}", band="", out_of=out_of)) if out_of else said


_ROWS: tuple[tuple[str, Callable[[Column], CellWords], str], ...] = (
    (to_say("Before tax"), lambda column: _money(column.net), ""),
    (to_say("With tax"), lambda column: _money(column.gross), "total"),
    (to_say("With the loss, weighed"), _loss, ""),
    (to_say("Finishes, in 20"), _finishes, ""),
    (to_say("Stops at a meeting, in 100"), _per_meeting, ""),
    (to_say("Can lock the wheel, in 100"), _locks_wheel, ""),
    (to_say("Power"), _power, ""),
    (to_say("Good for"), _good_for, ""),
    (to_say("First due"), _first_due, ""),
    (to_say("Bench hours"), _hours, ""),
    (to_say("Ready, 8 in 10"), _ready, ""),
)


def _spoken(columns: tuple[Column, ...], bands: tuple[str, ...]) -> str:
    told = []
    for column, band in zip(columns, bands, strict=True):
        low, _, high = band.partition("\N{EN DASH}")
        chance = _bare(chance_in_words(column.chance.value))
        told.append(
            say(
                "{option}: {low} to {high}, finishes {chance}.",
                option=column.name,
                low=low,
                high=high,
                chance=chance,
            )
        )
    return " ".join(told)
