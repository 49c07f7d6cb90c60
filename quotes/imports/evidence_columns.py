"""The columns of a file of earlier strip-downs, and what one cell of each says."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal, InvalidOperation

from catalogue.calc.said import say, to_say
from quotes.imports.cell_values import BadCell, day_in
from quotes.imports.cells import Cell
from quotes.imports.headed import Column, Value, code_in, text_in

EARLIEST = date(1990, 1, 1)
MOST = Decimal(1_000_000)
MOST_PLACES = 2
FEW = 8
"""So many names are told in a fault; of more it is said what they are."""

COLUMNS: tuple[Column, ...] = (
    Column(
        "component", to_say("Part"), "code", to_say("a component of the catalogue"), "clutch_friction", True
    ),
    Column(
        "type_code", to_say("Engine type"), "code", to_say("an engine type of the catalogue"), "four600", True
    ),
    Column(
        "engine", to_say("Engine"), "text", to_say("its number, or how you know it"), "H4-19022", True, 120
    ),
    Column(
        "on",
        to_say("Seen on"),
        "day",
        to_say("a date such as 2025-11-25, not later than today"),
        "2025-11-25",
        True,
    ),
    Column(
        "outcome",
        to_say("Found"),
        "code",
        to_say("failed, still sound, or found past its limit"),
        "still sound",
        True,
    ),
    Column(
        "amount",
        to_say("Had run"),
        "amount",
        to_say("service since new, above 0, at most 2 decimals"),
        "4000",
        True,
    ),
    Column("unit", to_say("In"), "code", to_say("miles, kilometres, hours or runs"), "miles", True),
    Column("duty", to_say("Duty"), "code", to_say("a duty of the catalogue"), "endurance", True),
    Column(
        "tier", to_say("Tune"), "code", to_say("a tune of the catalogue; nothing means standard"), "refresh"
    ),
    Column(
        "entry",
        to_say("Watched from"),
        "amount",
        to_say("service when it came under your eyes; nothing: new"),
        "0",
    ),
    Column(
        "seen_good_at",
        to_say("Last within"),
        "amount",
        to_say("service when last within limits, or nothing"),
        "",
    ),
    Column(
        "source",
        to_say("Written down in"),
        "text",
        to_say("where it is written down"),
        "bench book 7",
        False,
        300,
    ),
)
Names = Mapping[str, Mapping[str, str]]
"""Names by code, by the key of the column that takes them."""


def cell_value(cell: Cell, column: Column, names: Names, today: date) -> Value:
    """The value of a filled cell; BadCell where it is none."""
    match column.kind:
        case "amount":
            return _amount(cell, column)
        case "day":
            return day_in(cell, column.allowed, EARLIEST, today)
        case "code":
            known = names[column.key]
            return code_in(cell, known, ", ".join(known.values()) if len(known) <= FEW else column.allowed)
    return text_in(cell, column)


def _amount(cell: Cell, column: Column) -> Decimal:
    try:
        amount = round(Decimal(cell.text.strip()), 6).normalize()
    except InvalidOperation:
        raise BadCell(say("is no amount"), column.allowed) from None
    places = -int(amount.as_tuple().exponent) if amount.is_finite() else MOST_PLACES + 1
    if places > MOST_PLACES or not 0 <= amount <= MOST:
        raise BadCell(say("is no amount"), column.allowed)
    return amount
