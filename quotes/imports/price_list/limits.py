"""How large a supplier's price list may be, and what one of its lines is made of."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import to_say

MOST_BYTES = 50_000_000
MOST_UNPACKED = 400_000_000
"""A workbook is a packed file: this is the most that it may unpack to."""
MOST_LINES = 250_000
MOST_COLUMNS = 200
LONGEST_CELL = 5_000
"""A longer text is cut: it is a fault anyway, and named by the cell it stands in."""
KINDS = to_say("an XLSX workbook, or a CSV file with commas, semicolons, tabs or bars")


class Figure(str):
    """A cell that the spreadsheet holds as a number, in the digits that it keeps: 20417.0 or 12.5."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class MadeDate:
    """A cell that the spreadsheet holds as a date."""

    text: str


@dataclass(frozen=True, slots=True)
class Odd:
    """A cell that no column can take: a time, an error."""

    text: str


Raw = str | Figure | MadeDate | Odd | bool
"""A cell as the file has it; blank ones are ''."""
Line = tuple[int, list[Raw]]
"""The number of a line, counted from 1, and its cells."""


def raw_text(raw: Raw) -> str:
    """A cell as somebody would write it: 20417, not 20417.0."""
    if isinstance(raw, Figure):
        return raw[:-2] if raw.endswith(".0") else str(raw)
    if isinstance(raw, str):
        return raw
    if isinstance(raw, bool):
        return "TRUE" if raw else "FALSE"
    return raw.text
