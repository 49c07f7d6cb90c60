"""The lines of a file of customers, each cell checked on its own and each line on its own."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.imports.cell_values import BadCell, Value, cell_value
from quotes.imports.cells import Row, Table
from quotes.imports.customer_columns import (
    BY_KEY,
    COLUMNS,
    REQUIRED,
    Choices,
    Column,
    Part,
    by_heading,
    heading_key,
)
from quotes.imports.faults import FileFault, RowFault, shown

MUST_HAVE: dict[Part, tuple[str, ...]] = {
    "customer": (REQUIRED,),
    "engine": ("type_code", "number"),
    "service": ("amount", "unit", "duty"),
}
"""What a line must fill in of a part of which it fills in anything."""


@dataclass(frozen=True, slots=True)
class Line:
    """The values of one line, by column key; blank ones are absent."""

    number: int
    values: dict[str, Value]

    def text(self, key: str) -> str:
        return str(self.values.get(key, ""))

    def day(self, key: str) -> date | None:
        found = self.values.get(key)
        return found if isinstance(found, date) else None

    def amount(self) -> Decimal:
        return Decimal(str(self.values["amount"]))

    def has(self, part: Part) -> bool:
        return any(column.key in self.values for column in COLUMNS if column.part == part)


def read_lines(table: Table, choices: Choices, on: date) -> tuple[list[Line], list[RowFault]]:
    """All lines that are sound, and the faults of the others. FileFault where the headings are wrong."""
    columns = _columns(table)
    lines: list[Line] = []
    faults: list[RowFault] = []
    for row in table.rows[1:]:
        line, found = _line(table.sheet, row, columns, choices, on)
        faults += found
        if not found:
            lines.append(line)
    return lines, faults


def _columns(table: Table) -> dict[int, Column]:
    """Column by place, from the first filled line."""
    heading = table.rows[0]
    columns: dict[int, Column] = {}
    wrong: list[str] = []
    known = by_heading()
    for place, cell in enumerate(heading.cells):
        column = known.get(heading_key(cell.text)) if cell else None
        if column and column in columns.values():
            wrong.append(say("“{heading}” stands there twice", heading=shown(column.heading)))
        elif column:
            columns[place] = column
        elif cell:
            wrong.append(say("“{heading}” is not known", heading=shown(cell.text)))
    if BY_KEY[REQUIRED] not in columns.values():
        wrong.append(say("“{heading}” is missing", heading=BY_KEY[REQUIRED].heading))
    if wrong:
        allowed = ", ".join(column.heading for column in COLUMNS)
        raise FileFault(
            say(
                "Line {line} of {sheet} holds the headings: {wrong}. Allowed are {allowed}.",
                line=heading.line,
                sheet=table.sheet,
                wrong="; ".join(wrong),
                allowed=allowed,
            )
        )
    return columns


def _line(
    sheet: str, row: Row, columns: dict[int, Column], choices: Choices, on: date
) -> tuple[Line, list[RowFault]]:
    line = Line(row.line, {})
    faults: list[RowFault] = []
    for place, cell in enumerate(row.cells):
        if cell is None:
            continue
        if place not in columns:
            faults.append(
                _fault(
                    sheet,
                    row.line,
                    say("no heading"),
                    cell.text,
                    say("stands under no heading"),
                    say("a heading"),
                )
            )
            continue
        column = columns[place]
        try:
            line.values[column.key] = cell_value(cell, column, choices, on)
        except BadCell as bad:
            faults.append(_fault(sheet, row.line, column.heading, cell.text, bad.reason, bad.allowed))
    if not faults:
        faults = [_fault(sheet, row.line, *one) for one in _together(line, choices)]
    return line, faults


def _fault(sheet: str, line: int, column: str, value: str, reason: str, allowed: str) -> RowFault:
    return RowFault(sheet, line, column, shown(value), reason, allowed)


def _together(line: Line, choices: Choices) -> Iterable[tuple[str, str, str, str]]:
    """What is wrong between the cells of one line, as heading, value, reason, allowed."""
    parts: list[Part] = ["customer"]
    parts += ["engine"] if line.has("engine") or line.has("service") else []
    parts += ["service"] if line.has("service") else []
    for part in parts:
        for key in MUST_HAVE[part]:
            if key not in line.values:
                allowed = choices.allowed(key) if BY_KEY[key].kind == "choice" else BY_KEY[key].allowed
                yield BY_KEY[key].heading, "", say("is blank, but the line needs it"), allowed
    if line.has("service"):
        yield from _service(line, choices)


def _service(line: Line, choices: Choices) -> Iterable[tuple[str, str, str, str]]:
    start, end = line.day("start"), line.day("end")
    if start and end and end < start:
        yield (
            BY_KEY["end"].heading,
            str(end),
            say("lies before the day it began"),
            say("{day} or later", day=start),
        )
    unit, duty = line.text("unit"), line.text("duty")
    usable = choices.units_of_duty.get(duty)
    if unit and usable is not None and unit not in usable:
        name = choices.duty.get(duty, duty)
        allowed = say(" or ").join(choices.unit[one] for one in usable)
        yield (
            BY_KEY["unit"].heading,
            choices.unit[unit],
            say("can't be carried over for {duty}", duty=name),
            allowed,
        )
    if (history := line.text("history")) in ("new", "unknown"):
        yield BY_KEY["history"].heading, history, say("does not go with service"), say("known, or blank")
