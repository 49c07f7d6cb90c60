"""The options as rows of questions: the same words on the new-quote card and wherever the desk compares."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.ask.request import Unit
from quotes.calc.money.band import SpokenRule, spoken_band
from quotes.calc.sheet.values import Chance, Comparison, LeaveIt, Option, Range, Spread, WheelLock
from quotes.calc.sheet.words import OUT_OF, estimate_in_words, listed, out_of_twenty
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
    rows = [Row("Say", tuple(CellWords(band) for band in bands), "say")]
    rows += [Row(label, tuple(cell(column) for column in columns), kind) for label, cell, kind in _ROWS]
    if aim := _aim(comparison):
        rows.insert(4, Row(aim, tuple(_reached(column.chance) for column in columns)))
    if any(option.breaks_class for option in comparison.options):
        rows.append(Row("Allowed in the class", tuple(_allowed(column) for column in columns)))
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


def _finishes(column: Column) -> CellWords:
    low, high = out_of_twenty(column.chance.low), out_of_twenty(column.chance.high)
    value = out_of_twenty(column.chance.value)
    most = f"over {OUT_OF - 1}"
    band = f"{low} to {high}" if high < OUT_OF else f"{low} or more" if low < OUT_OF else most
    said = most if value >= OUT_OF else str(value)
    return CellWords(said, strong=True, more="" if low == high == value or band == said else band)


def _per_meeting(column: Column) -> CellWords:
    first, last = (_in_100(1 - share) for share in (column.chance.first_event, column.chance.last_event))
    return CellWords(first) if first == last else CellWords(first, more=f"the last {last}")


def _aim(comparison: Comparison) -> str:
    targets = [option.chance.target for option in comparison.options if option.chance.target is not None]
    if not targets:
        return ""
    asked = set(targets)
    if len(asked) > 1:
        return "Its own aim"
    aim = asked.pop()
    return f"Aim of {out_of_twenty(aim)} in {OUT_OF}, {aim * 100:.0f} %"


def _reached(chance: Chance) -> CellWords:
    if chance.target is None:
        return CellWords("")
    return CellWords("reached") if chance.target_met else CellWords("not reached", strong=True)


def _allowed(column: Column) -> CellWords:
    if isinstance(column, LeaveIt):
        return CellWords("")
    if not column.breaks_class:
        return CellWords("yes")
    return CellWords("no", strong=True, more=listed(column.breaks_class))


def _locks_wheel(column: Column) -> CellWords:
    lock: WheelLock = column.wheel_lock
    ceiling = f"ceiling {lock.ceiling * 100:.0f}"
    if lock.met:
        return CellWords(_in_100(lock.value), more=ceiling)
    return CellWords(f"{_in_100(lock.value)}, too many", strong=True, more=ceiling)


def _power(column: Column) -> CellWords:
    if isinstance(column, LeaveIt):
        return CellWords("as it is")
    gain: Range = column.power_gain_pct
    if gain.typical == 0:
        return CellWords("as new")
    return CellWords(f"+{gain.typical:.0f} %", more=f"{gain.low:.0f} to {gain.high:.0f}")


def _good_for(column: Column) -> CellWords:
    return CellWords(_service(column.good_for.amount, column.good_for.unit))


def _first_due(column: Column) -> CellWords:
    due = column.first_due if isinstance(column, Option) else next(iter(column.falls_due), None)
    if due is None:
        return CellWords("none near its life")
    name = due.name.partition(" (")[0]
    return CellWords(name, more="due already" if due.amount <= 0 else _service(due.amount, due.unit))


def _hours(column: Column) -> CellWords:
    return CellWords(figure(column.hours, 1))


def _ready(column: Column) -> CellWords:
    return CellWords(day(column.ready.p80)) if isinstance(column, Option) else CellWords("")


def _service(amount: float, unit: Unit) -> str:
    return estimate_in_words(amount, unit)


def _in_100(share: float) -> str:
    count = math.floor(share * 100 + 0.5)
    return str(count) if count else "under 1"


_ROWS: tuple[tuple[str, Callable[[Column], CellWords], str], ...] = (
    ("Before tax", lambda column: _money(column.net), ""),
    ("With tax", lambda column: _money(column.gross), "total"),
    ("Finishes, in 20", _finishes, ""),
    ("Stops at a meeting, in 100", _per_meeting, ""),
    ("Can lock the wheel, in 100", _locks_wheel, ""),
    ("Power", _power, ""),
    ("Good for", _good_for, ""),
    ("First due", _first_due, ""),
    ("Bench hours", _hours, ""),
    ("Ready, 8 in 10", _ready, ""),
)


def _spoken(columns: tuple[Column, ...], bands: tuple[str, ...]) -> str:
    told = [
        f"{column.name}: {band.replace(chr(0x2013), ' to ')}, finishes {_finishes(column).text} in {OUT_OF}"
        for column, band in zip(columns, bands, strict=True)
    ]
    return ". ".join(told) + "."
