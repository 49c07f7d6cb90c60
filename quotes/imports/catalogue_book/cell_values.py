"""What one cell of the catalogue's workbook says in its column, or why it can't stand there."""

from __future__ import annotations

import json
import re
from decimal import Decimal
from typing import Any

from catalogue.calc.book.marks import DIGITS, to_fifteen
from catalogue.calc.book.values import NO, YES
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from catalogue.queries.book.layout import Column
from quotes.imports.cell_values import BadCell
from quotes.imports.cells import Cell

NUMBER = re.compile(r"-?\d{1,15}(\.\d{1,15})?")
CODE = re.compile(r"[A-Za-z0-9_.\-]{1,64}")
YES_NO = {YES: True, NO: False, "TRUE": True, "FALSE": False}


def value_in(cell: Cell | None, column: Column) -> Any:
    """The value of a cell. BadCell where it is none."""
    if cell is None:
        if column.needed:
            raise BadCell(say("is blank"), column.allowed)
        return column.blank
    if column.sort == "yes":
        return _yes_or_no(cell, column)
    if cell.kind == "odd":
        raise BadCell(say("is a formula without a result, an error, a time or a yes/no"), column.allowed)
    if cell.kind == "date":
        raise BadCell(
            say("was made a date by the spreadsheet"), say("format the column as text and write it again")
        )
    if column.sort in ("number", "decimal", "whole"):
        return _number(cell, column)
    if column.sort == "json":
        return _json(cell, column)
    return _text(cell, column)


def _yes_or_no(cell: Cell, column: Column) -> bool:
    said = YES_NO.get(cell.text if cell.kind == "odd" else cell.text.strip().casefold())
    if said is None:
        raise BadCell(say("is neither yes nor no"), column.allowed)
    return said


def _number(cell: Cell, column: Column) -> float | int | Decimal:
    text = cell.text.strip()
    if cell.kind == "text" and not NUMBER.fullmatch(text):
        raise BadCell(say("is text and no number"), column.allowed)
    exact = to_fifteen(Decimal(text))
    if column.sort == "number":
        return float(exact)
    if column.sort == "whole":
        if exact != exact.to_integral_value():
            raise BadCell(say("is no whole number"), column.allowed)
        return int(exact)
    if abs(exact) >= 10**DIGITS or round_half_up(exact, column.decimals) != exact:
        raise BadCell(say("has too many digits"), column.allowed)
    return round_half_up(exact, column.decimals)


def _json(cell: Cell, column: Column) -> Any:
    if cell.kind == "number":
        exact = to_fifteen(Decimal(cell.text))
        return int(exact) if exact == exact.to_integral_value() else float(exact)
    try:
        return json.loads(cell.text, parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        raise BadCell(say("is no number and no JSON"), column.allowed) from error


def _no_constant(name: str) -> None:
    raise ValueError(name)


def _text(cell: Cell, column: Column) -> str:
    text = _digits(cell.text) if cell.kind == "number" else cell.text.strip()
    if column.choices and text not in column.choices:
        raise BadCell(say("is not known"), column.allowed)
    if column.sort == "code" and not CODE.fullmatch(text):
        raise BadCell(say("is no code"), column.allowed)
    if column.longest and len(text) > column.longest:
        raise BadCell(say("has {count} characters", count=len(text)), column.allowed)
    return text


def _digits(number: str) -> str:
    """A number typed where text belongs, as a person wrote it: 20417, not 20417.0."""
    exact = Decimal(number)
    if abs(exact) >= 10**DIGITS:
        raise BadCell(
            say(
                "is a number of more than {count} digits, of which the spreadsheet has lost the last",
                count=DIGITS,
            ),
            say("format the column as text and write it again"),
        )
    return format(to_fifteen(exact), "f")
