"""The comparison as a sheet: rows are the customer's questions, columns leave it and the options.

Page, paper and workbook draw these same rows; a cell carries its words and, for the workbook, its value.
A question that no option can answer is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.values import Comparison
from quotes.documents.answers import EMPTY, AnswerCell, leave_answers, option_answers

Kind = Literal["money", "share", "date", "hours", "text"]

ROWS: tuple[tuple[str, str, Kind], ...] = (
    ("gross", to_say("What does it cost, with tax?"), "money"),
    ("between", to_say("Until it is stripped, between"), "text"),
    ("gross_low", to_say("At the least, until it is stripped"), "money"),
    ("gross_high", to_say("At the most, until it is stripped"), "money"),
    ("net", to_say("Before tax"), "money"),
    ("tax", to_say("Tax"), "money"),
    ("planned_gross", to_say("And the whole season, its openings with it?"), "money"),
    ("chance", to_say("Will it see the season out?"), "share"),
    ("chance_low", to_say("8 in 10 estimates, from"), "share"),
    ("chance_high", to_say("8 in 10 estimates, to"), "share"),
    ("likely", to_say("8 in 10 estimates"), "text"),
    ("meeting", to_say("And a single meeting?"), "share"),
    ("last_meeting", to_say("The last meeting"), "share"),
    ("aim", to_say("Does that reach your aim?"), "text"),
    ("goes", to_say("If it goes, what is it most often?"), "text"),
    ("loss", to_say("Cost, with what a stop would cost you"), "money"),
    ("locks", to_say("Can it lock the rear wheel or oil the tyre?"), "text"),
    ("good_for", to_say("How far is it good for?"), "text"),
    ("opened", to_say("Must it be opened within the season?"), "text"),
    ("first_due", to_say("Which part falls due first?"), "text"),
    ("power", to_say("What does it give?"), "text"),
    ("class", to_say("Does your class allow it?"), "text"),
    ("ready", to_say("When is it ready? Promised, 8 in 10"), "date"),
    ("ready_even", to_say("Ready, even chance"), "date"),
    ("ready_sure", to_say("Ready, nearly sure, 9 in 10"), "date"),
    ("season_cost", to_say("What does a season cost, in the long run?"), "money"),
    ("unit_cost", to_say("And each unit of use?"), "money"),
    ("deposit", to_say("What is due at the yes?"), "money"),
    ("hours", to_say("Bench hours"), "hours"),
)
WORKBOOK_ONLY = frozenset(
    {"gross_low", "gross_high", "chance_low", "chance_high", "last_meeting", "ready_even", "ready_sure"}
)
"""One number each; on page and paper they stand together in one cell or in a table of their own."""
PAGE_ONLY = frozenset({"between", "likely"})
TOTALS = frozenset({"gross"})
"""Ruled as a sum is."""


@dataclass(frozen=True, slots=True)
class Question:
    """One row of the sheet."""

    code: str
    asked: str
    kind: Kind
    cells: tuple[AnswerCell, ...]

    @property
    def total(self) -> bool:
        return self.code in TOTALS


def columns(comparison: Comparison) -> tuple[str, ...]:
    """The heads: leave it, then the options."""
    return (comparison.leave_it.name, *(option.name for option in comparison.options))


def questions(
    comparison: Comparison, language: str = "", class_name: str = "", *, for_workbook: bool = False
) -> tuple[Question, ...]:
    """The rows in the order in which a customer asks."""
    answered = [
        leave_answers(comparison, language),
        *(option_answers(option, comparison, language, class_name) for option in comparison.options),
    ]
    skipped = PAGE_ONLY if for_workbook else WORKBOOK_ONLY
    rows = (
        Question(code, say(asked), kind, tuple(column.get(code, EMPTY) for column in answered))
        for code, asked, kind in ROWS
        if code not in skipped
    )
    return tuple(row for row in rows if any(cell != EMPTY for cell in row.cells[1:]))
