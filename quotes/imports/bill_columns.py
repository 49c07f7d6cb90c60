"""The columns of a file of suppliers' bills, and what one cell of each says."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, to_say
from quotes.imports.cell_values import BadCell, day_in
from quotes.imports.cells import Cell
from quotes.imports.headed import Column, Value, code_in, text_in

SUM = re.compile(r"-?\d{1,7}(\.\d{1,3})?")
GROUPED = re.compile(r"-?\d{1,3}(,\d{3})+(\.\d{1,3})?")
EARLIEST = date(1990, 1, 1)
LATEST = date(2199, 12, 31)

COLUMNS: tuple[Column, ...] = (
    Column("supplier", to_say("Supplier"), "text", to_say("a name"), "Fenwright Parts", True, 120),
    Column("number", to_say("Number"), "text", to_say("as printed on the bill"), "8841", True, 60),
    Column("on", to_say("Date"), "day", to_say("a date such as 2026-11-25"), "2026-11-25", True),
    Column(
        "due_on", to_say("To pay by"), "day", to_say("a date such as 2026-12-25, or nothing"), "2026-12-25"
    ),
    Column(
        "kind",
        to_say("What for"),
        "sort",
        to_say("parts, machine work, freight, parts for stock, or overheads"),
        "parts",
        True,
    ),
    Column("description", to_say("In words"), "text", to_say("a few words"), "Piston set, 67.00", True, 200),
    Column(
        "build",
        to_say("Build"),
        "text",
        to_say("the number of an accepted quote, or nothing"),
        "Q-2026-0001",
        False,
        40,
    ),
    Column(
        "net", to_say("Before tax"), "sum", to_say("figures with a point, such as 1234.50"), "412.00", True
    ),
    Column("tax", to_say("Tax"), "sum", to_say("figures with a point; nothing where there is none"), "82.40"),
)


def cell_value(cell: Cell, column: Column, sorts: Mapping[str, str]) -> Value:
    """The value of a filled cell; BadCell where it is none. `sorts`: names of the kinds of line by code."""
    match column.kind:
        case "sum":
            return _sum(cell, column)
        case "day":
            return day_in(cell, column.allowed, EARLIEST, LATEST)
        case "sort":
            return code_in(cell, sorts, column.allowed)
    return text_in(cell, column)


def _sum(cell: Cell, column: Column) -> Decimal:
    text = cell.text.strip()
    if GROUPED.fullmatch(text):
        text = text.replace(",", "")
    if cell.kind == "number":
        text = f"{round(Decimal(text), 6).normalize():f}"
    if not SUM.fullmatch(text):
        raise BadCell(
            say("is no sum"),
            say("{allowed}, at most {most}", allowed=column.allowed, most="9999999.999"),
        )
    return Decimal(text)
