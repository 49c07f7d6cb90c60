"""What one cell says in its column, or why it can't stand there."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say, say_figure
from catalogue.calc.search_key import search_key
from quotes.imports.cells import Cell
from quotes.imports.customer_columns import MOST_AMOUNT, Choices, Column

OVER_LINES = ("address", "note")
RUNS_AS_FORMULA = ("=", "+", "-", "@")
EXACT_DIGITS = 15
"""A workbook keeps so many digits of a number and puts noughts for the rest."""
NOISE = Decimal("0.000001")
EARLIEST = date(1950, 1, 1)
TELEPHONE = re.compile(r"\+?[0-9(][0-9 ()/.\-]*")
EMAIL = re.compile(r"[^@\s,;:<>\"]+@[^@\s,;:<>\"]+\.[^@\s,;:<>\".]{2,}")
AMOUNT = re.compile(r"\d{1,7}(\.\d{1,2})?")
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")

Value = str | Decimal | date


class BadCell(Exception):
    """Why a cell can't stand in its column, and what can."""

    def __init__(self, reason: str, allowed: str) -> None:
        self.reason = reason
        self.allowed = allowed
        super().__init__(reason)


def cell_value(cell: Cell, column: Column, choices: Choices, on: date) -> Value:
    """The value of a filled cell; BadCell where it is none. `on`: no day may lie after it."""
    if cell.kind == "odd":
        raise BadCell(
            say("is a formula without a result, an error, a time or a yes/no"),
            column_allowed(column, choices),
        )
    if column.kind == "date":
        return day_in(cell, column.allowed, EARLIEST, on)
    if column.kind == "amount":
        return _amount(cell, column)
    text = _text(cell, column)
    match column.kind:
        case "choice":
            return _choice(text, column, choices)
        case "email" if not EMAIL.fullmatch(text):
            raise BadCell(say("is no e-mail address"), column.allowed)
        case "country" if not (len(text) == 2 and text.isascii() and text.isalpha()):
            raise BadCell(say("is no country code"), column.allowed)
        case "country":
            return text.upper()
        case "telephone" if not TELEPHONE.fullmatch(text):
            raise BadCell(say("is no telephone number"), column.allowed)
    return text


def column_allowed(column: Column, choices: Choices) -> str:
    return choices.allowed(column.key) if column.kind == "choice" else column.allowed


def _text(cell: Cell, column: Column) -> str:
    if cell.kind == "date":
        raise BadCell(
            say("was made a date by the spreadsheet"), say("format the column as text and write it again")
        )
    text = _digits(cell.text) if cell.kind == "number" else _plain(cell.text)
    if any(not char.isprintable() for char in text.replace("\n", "")):
        raise BadCell(say("holds a character that can't be seen"), say("letters, figures and marks"))
    if "\n" in text and column.key not in OVER_LINES:
        raise BadCell(say("is broken over two lines"), say("one line"))
    if len(text) > column.longest and column.kind != "country":
        raise BadCell(
            say("has {count} characters", count=say_figure(len(text), 0)),
            say("at most {most}", most=column.longest),
        )
    if text.startswith(RUNS_AS_FORMULA) and column.kind != "telephone":
        raise BadCell(
            say("begins with {mark}, which a spreadsheet runs as a formula", mark=text[0]), column.allowed
        )
    return text


def _plain(text: str) -> str:
    """The text with plain spaces and line ends, and none round it."""
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("\t", " ").replace("\r\n", "\n").strip()


def _digits(number: str) -> str:
    """A number that stands for a text, as a person wrote it: 20417, not 20417.0."""
    exact = Decimal(number)
    text = format(exact.to_integral_value() if exact == exact.to_integral_value() else exact, "f")
    if len(text.strip("-").replace(".", "")) > EXACT_DIGITS:
        raise BadCell(
            say(
                "is a number of more than {count} digits, of which the spreadsheet has lost the last",
                count=EXACT_DIGITS,
            ),
            say("format the column as text and write it again"),
        )
    return text


def _choice(text: str, column: Column, choices: Choices) -> str:
    wanted = search_key(text)
    for code, name in choices.of(column.key).items():
        if wanted in (search_key(code), search_key(name)):
            return code
    raise BadCell(say("is not known"), choices.allowed(column.key))


def _amount(cell: Cell, column: Column) -> Decimal:
    if cell.kind == "number":
        amount = _without_noise(Decimal(cell.text), column)
    elif AMOUNT.fullmatch(cell.text.strip()):
        amount = Decimal(cell.text.strip())
    else:
        raise BadCell(say("is no number"), column.allowed)
    if not 0 < amount <= MOST_AMOUNT:
        raise BadCell(
            say("is no use that an engine can have seen"),
            say("above 0 and at most {most}", most=say_figure(MOST_AMOUNT, 0)),
        )
    return amount


def _without_noise(number: Decimal, column: Column) -> Decimal:
    """A number as it was meant: a spreadsheet's 0.30000000000000004 is 0.30."""
    if abs(number) > MOST_AMOUNT:
        return number
    rounded = round_half_up(number)
    if abs(rounded - number) > NOISE:
        raise BadCell(say("has more than 2 decimals"), column.allowed)
    return rounded


def day_in(cell: Cell, allowed: str, earliest: date, latest: date) -> date:
    """A date as ISO 8601 or from a cell formatted as one, both ends allowed. BadCell for anything else."""
    text = cell.text.strip()
    if cell.kind == "number" or not DAY.fullmatch(text):
        raise BadCell(say("is no date"), say("{allowed}, or a cell formatted as a date", allowed=allowed))
    try:
        day = date.fromisoformat(text)
    except ValueError as error:
        raise BadCell(say("is no day of the calendar"), allowed) from error
    if not earliest <= day <= latest:
        raise BadCell(
            say("lies too far back or ahead"),
            say("from {earliest} to {latest}", earliest=earliest, latest=latest),
        )
    return day
