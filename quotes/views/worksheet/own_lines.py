"""The desk's own lines on the sheet: which of them a line is, and of whom it is bought."""

from __future__ import annotations

from catalogue.queries import current_rows
from quotes.calc.ask.request import Edits
from quotes.calc.sheet.line_values import Line


def own_index_of(line: Line, edits: Edits) -> int | None:
    """Which of the desk's own lines it is, from 0; they are coded own-1, own-2 and so on."""
    number = line.code.removeprefix("own-")
    if number == line.code or not number.isdigit() or not 1 <= int(number) <= len(edits.own_lines):
        return None
    return int(number) - 1


def bought_of(index: int | None, edits: Edits) -> str:
    """Of whom it is bought, and by which number; nothing where that is not said."""
    own = None if index is None else edits.own_lines[index]
    if own is None or not own.supplier:
        return ""
    names = {row.code: row.name for row in current_rows().suppliers}
    return f"{names.get(own.supplier, own.supplier)}, {own.number}"
