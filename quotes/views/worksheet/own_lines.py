"""The desk's own lines on the sheet: which of them a line is."""

from __future__ import annotations

from quotes.calc.ask.request import Edits
from quotes.calc.sheet.line_values import Line


def own_index_of(line: Line, edits: Edits) -> int | None:
    """Which of the desk's own lines it is, from 0; they are coded own-1, own-2 and so on."""
    number = line.code.removeprefix("own-")
    if number == line.code or not number.isdigit() or not 1 <= int(number) <= len(edits.own_lines):
        return None
    return int(number) - 1
