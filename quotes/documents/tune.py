"""Power, revs and loads of every way of building, and how wide the model is: words for page and paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.sheet.tune_values import TuneFigures
from quotes.calc.sheet.tune_words import power_at_its_peak, power_band
from quotes.calc.sheet.values import Comparison, LeaveIt
from quotes.documents.answers import EMPTY, AnswerCell
from quotes.documents.words import NO_BREAK, percent_band, whole_percent

AS_IT_IS = to_say("as it is")


@dataclass(frozen=True, slots=True)
class TuneRow:
    """One question with an answer for each way, leave it first."""

    asked: str
    cells: tuple[AnswerCell, ...]


@dataclass(frozen=True, slots=True)
class TuneTable:
    """The block: its rows, and what the figures rest on."""

    heads: tuple[str, ...]
    rows: tuple[TuneRow, ...]
    notes: tuple[str, ...]


def tune_table(comparison: Comparison) -> TuneTable | None:
    """The block of a comparison; None where a sheet is too old to hold it."""
    figures = [option.tune_figures for option in comparison.options]
    if not any(figures):
        return None
    leave = comparison.leave_it
    rows = [
        TuneRow(say("Power at its peak"), (_power_left(leave), *(_cell(_power, each) for each in figures)))
    ]
    for asked, answer in _ROWS:
        rows.append(
            TuneRow(say(asked), (AnswerCell(say(AS_IT_IS)), *(_cell(answer, each) for each in figures)))
        )
    widths = tuple(_cell(_width, each) for each in figures)
    rows.append(TuneRow(say("Finishes, its loads reckoned otherwise"), (EMPTY, *widths)))
    names = (leave.name, *(option.name for option in comparison.options))
    return TuneTable(names, tuple(rows), _notes([each for each in figures if each]))


def _cell(answer: Callable[[TuneFigures], AnswerCell], figures: TuneFigures | None) -> AnswerCell:
    return answer(figures) if figures else EMPTY


def _power_left(leave: LeaveIt) -> AnswerCell:
    return (
        AnswerCell(power_at_its_peak(leave.power), say("measured"))
        if leave.power
        else AnswerCell(say(AS_IT_IS))
    )


_ESTIMATED = to_say("estimated")
_HOW_KNOWN = {"measured": to_say("measured"), "from measured": to_say("estimated on what was measured")}


def _power(figures: TuneFigures) -> AnswerCell:
    power, band = figures.power, power_band(figures.power)
    how = say(_HOW_KNOWN.get(power.kind, _ESTIMATED))
    return AnswerCell(power_at_its_peak(power), f"{band}, {how}" if band else how)


def _speed(figures: TuneFigures) -> AnswerCell:
    return AnswerCell(
        f"{figures.piston_speed_m_per_s:.0f}{NO_BREAK}m/s",
        say("at {revs} a minute", revs=say_figure(figures.rev_limit_rpm, 0)),
    )


def _load(cause: str) -> Callable[[TuneFigures], AnswerCell]:
    def answer(figures: TuneFigures) -> AnswerCell:
        ratio = next((load.ratio for load in figures.loads if load.cause == cause), 1.0)
        more = round(100 * (ratio - 1))
        if not more:
            return AnswerCell(say("as standard"))
        share = f"{abs(more)}{NO_BREAK}%"
        return AnswerCell(say("{share} more", share=share) if more > 0 else say("{share} less", share=share))

    return answer


def _width(figures: TuneFigures) -> AnswerCell:
    if figures.width is None:
        return AnswerCell(say("not known"), say("its loads are outside what is known"))
    width = figures.width
    if width.low == width.high:
        return AnswerCell(say("no odds"), say("the standard tune"))
    return AnswerCell(
        percent_band(width.low, width.high), say("as reckoned {chance}", chance=whole_percent(width.value))
    )


_ROWS: tuple[tuple[str, Callable[[TuneFigures], AnswerCell]], ...] = (
    (to_say("Mean piston speed"), _speed),
    (to_say("Load by revs, against standard"), _load("inertia")),
    (to_say("Load by gas pressure, against standard"), _load("gas")),
)


def _notes(figures: list[TuneFigures]) -> tuple[str, ...]:
    """What is said once for all ways: what the power rests on, how far the model may be off."""
    measured = next((each.power.sentence for each in figures if each.power.measured), "")
    estimated = next((each.power.sentence for each in figures if not each.power.measured), "")
    outside = dict.fromkeys(note for each in figures for note in each.notes)
    wide = say(
        "Reckoned otherwise: race parts that bear a twentieth more or less, life that falls with load more "
        "or less steeply, and loads from geometry in place of what the trade says."
    )
    return tuple(filter(None, (measured, estimated, *outside, wide)))
