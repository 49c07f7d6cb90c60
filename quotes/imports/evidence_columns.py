"""The columns of a file of earlier strip-downs, and what one cell of each says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Literal

from quotes.calc.search_key import search_key
from quotes.imports.cell_values import BadCell, day_in
from quotes.imports.cells import Cell

EARLIEST = date(1990, 1, 1)
MOST = Decimal(1_000_000)
MOST_PLACES = 2

Kind = Literal["text", "amount", "day", "code"]
Value = str | Decimal | date


@dataclass(frozen=True, slots=True)
class Column:
    """`code` columns take a code or its name; `needed` ones are filled in on every line."""

    key: str
    heading: str
    kind: Kind
    allowed: str
    example: str
    needed: bool = False
    longest: int = 0


COLUMNS: tuple[Column, ...] = (
    Column("component", "Part", "code", "a component of the catalogue", "clutch_friction", True),
    Column("type_code", "Engine type", "code", "an engine type of the catalogue", "four600", True),
    Column("engine", "Engine", "text", "its number, or how you know it", "H4-19022", True, 120),
    Column("on", "Seen on", "day", "a date such as 2025-11-25, not later than today", "2025-11-25", True),
    Column("outcome", "Found", "code", "failed, still sound, or found past its limit", "still sound", True),
    Column("amount", "Had run", "amount", "service since new, above 0, at most 2 decimals", "4000", True),
    Column("unit", "In", "code", "miles, kilometres, hours or runs", "miles", True),
    Column("duty", "Duty", "code", "a duty of the catalogue", "endurance", True),
    Column("tier", "Tune", "code", "a tune of the catalogue; nothing means standard", "refresh"),
    Column("entry", "Watched from", "amount", "service when it came under your eyes; nothing: new", "0"),
    Column("seen_good_at", "Last within", "amount", "service when last within limits, or nothing", ""),
    Column("source", "Written down in", "text", "where it is written down", "bench book 7", False, 300),
)
Names = Mapping[str, Mapping[str, str]]
"""Names by code, by the key of the column that takes them."""


def heading_key(heading: str) -> str:
    """A heading without case, spaces and marks."""
    return search_key(heading).replace(" ", "")


BY_HEADING: Mapping[str, Column] = {
    heading_key(words): column for column in COLUMNS for words in (column.heading, column.key)
}


def cell_value(cell: Cell, column: Column, names: Names, today: date) -> Value:
    """The value of a filled cell; BadCell where it is none."""
    if cell.kind == "odd":
        raise BadCell("is a formula without a result, an error, a time or a yes/no", column.allowed)
    match column.kind:
        case "amount":
            return _amount(cell, column)
        case "day":
            return day_in(cell, column.allowed, EARLIEST, today)
        case "code":
            return _code(cell, column, names[column.key])
    text = " ".join(cell.text.split())
    if any(not char.isprintable() for char in text):
        raise BadCell("holds a character that can't be seen", "letters, figures and marks")
    if len(text) > column.longest:
        raise BadCell(f"has {len(text):,} characters", f"at most {column.longest}")
    return text


def _amount(cell: Cell, column: Column) -> Decimal:
    try:
        amount = round(Decimal(cell.text.strip()), 6).normalize()
    except InvalidOperation:
        raise BadCell("is no amount", column.allowed) from None
    places = -int(amount.as_tuple().exponent) if amount.is_finite() else MOST_PLACES + 1
    if places > MOST_PLACES or not 0 <= amount <= MOST:
        raise BadCell("is no amount", column.allowed)
    return amount


def _code(cell: Cell, column: Column, names: Mapping[str, str]) -> str:
    wanted = search_key(cell.text)
    for code, name in names.items():
        if wanted in (search_key(code), search_key(name)):
            return code
    known = ", ".join(names) if len(names) <= 8 else column.allowed
    raise BadCell("is not known", known)
