"""A comparison as plain text for the terminal: the customer's questions down, the ways of building across."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from quotes.calc.sheet.chance_values import Chance, WheelLock
from quotes.calc.sheet.sentences import honesty
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.calc.sheet.words import (
    chance_in_words,
    estimate_in_words,
    likely_in_words,
    percent_band,
    risk_band,
    whole_percent,
)

Column = LeaveIt | Option
COLUMN_GAP = "  "


def comparison_table(comparison: Comparison) -> str:
    """Lines of text, each ending in a newline; columns are as wide as what stands in them."""
    columns: list[Column] = [comparison.leave_it, *comparison.options]
    rows = [["", *(column.name for column in columns)]]
    rows += [[label, *(cell(column, comparison) for column in columns)] for label, cell in _ROWS]
    widths = [max(len(row[place]) for row in rows) for place in range(len(columns) + 1)]
    body = "".join(_line(row, widths) for row in rows)
    history = " ".join(comparison.history_in_words)
    head = f"{comparison.engine_type_name}, {comparison.planned_in_words}\n{history}\n"
    said = "".join(f"{option.name}: {note}\n" for option in comparison.options for note in _said(option))
    rests = "".join(f"{sentence}\n" for sentence in honesty(comparison))
    return f"{head}\n{body}\n{said}\n{rests}"


def _line(row: list[str], widths: list[int]) -> str:
    first, *rest = row
    cells = [
        first.ljust(widths[0]),
        *(cell.rjust(width) for cell, width in zip(rest, widths[1:], strict=True)),
    ]
    return COLUMN_GAP.join(cells).replace("\N{NO-BREAK SPACE}", " ").rstrip() + "\n"


def _said(option: Option) -> tuple[str, ...]:
    return tuple(text.replace("\N{NO-BREAK SPACE}", " ") for text in (*option.attention, *option.notes))


def _amount(value: Decimal) -> str:
    return f"{value:,}"


def _gross(column: Column, comparison: Comparison) -> str:
    typical = column.gross if isinstance(column, LeaveIt) else column.gross.typical
    return f"{_amount(typical)} {comparison.currency}"


def _band(column: Column, comparison: Comparison) -> str:
    if isinstance(column, LeaveIt) or comparison.firm:
        return ""
    return f"{_amount(column.gross.low)} to {_amount(column.gross.high)}"


def _of_chance(say: Callable[[Chance], str]) -> Callable[[Column, Comparison], str]:
    return lambda column, _: say(column.chance)


def _wheel_lock(column: Column, _: Comparison) -> str:
    lock: WheelLock = column.wheel_lock
    band = "" if lock.low is None or lock.high is None else f", {risk_band(lock.low, lock.high)}"
    return f"{whole_percent(lock.value)}{band}{'' if lock.met else ', over ceiling'}"


def _aim(chance: Chance) -> str:
    if chance.target is None:
        return ""
    return "reached" if chance.target_met else "not reached"


def _good_for(column: Column, _: Comparison) -> str:
    return estimate_in_words(column.good_for.amount, column.good_for.unit)


def _power(column: Column, _: Comparison) -> str:
    if isinstance(column, LeaveIt) or not column.power_gain_pct.typical:
        return "as it is"
    gain = column.power_gain_pct
    return f"+{gain.typical:.0f} %, {gain.low:.0f} to {gain.high:.0f}"


def _hours(column: Column, _: Comparison) -> str:
    return f"{column.hours:.1f}"


def _ready(column: Column, _: Comparison) -> str:
    return "" if isinstance(column, LeaveIt) else column.ready.p80.isoformat()


def _planned(column: Column, _: Comparison) -> str:
    if isinstance(column, LeaveIt) or column.season is None:
        return ""
    return f"{_amount(column.planned_gross.typical)}, {len(column.season.openings)} more"


def _season(column: Column, _: Comparison) -> str:
    return "" if isinstance(column, LeaveIt) else _amount(column.cost_per_season)


_ROWS: tuple[tuple[str, Callable[[Column, Comparison], str]], ...] = (
    ("Price with tax", _gross),
    ("before strip-down", _band),
    ("with its openings", _planned),
    ("Finishes the season", _of_chance(lambda chance: chance_in_words(chance.value))),
    ("8 in 10 estimates, in 20", _of_chance(lambda chance: likely_in_words(chance.low, chance.high))),
    ("in per cent", _of_chance(lambda chance: percent_band(chance.low, chance.high))),
    ("Each meeting, first", _of_chance(lambda chance: whole_percent(chance.first_event))),
    ("Each meeting, last", _of_chance(lambda chance: whole_percent(chance.last_event))),
    ("Aim", _of_chance(_aim)),
    ("Can lock the wheel", _wheel_lock),
    ("Good for", _good_for),
    ("Power", _power),
    ("Bench hours", _hours),
    ("Cost a season", _season),
    ("Ready, 8 in 10", _ready),
)
