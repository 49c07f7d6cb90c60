"""The refused rows of a price list as a file of its kind, with the reason beside each, to be mended."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import PurePath

from catalogue.calc.price_list.listed import Rejected
from catalogue.calc.price_list.reading import Reading
from catalogue.calc.said import say, to_say
from catalogue.documents.table_files import Cell, TableFile, as_csv, as_workbook
from quotes.imports.price_list.limits import Figure, Raw, raw_text
from quotes.imports.price_list.source import opened

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

REASONS = (to_say("Line of the file"), to_say("Why it was refused"), to_say("What is allowed"))
"""The heads of what stands beside each row."""


@dataclass(frozen=True, slots=True)
class RefusedFile:
    """A file to take away."""

    name: str
    content: bytes
    kind: str


def refused_file(content: bytes, name: str, reading: Reading, rejected: Iterable[Rejected]) -> RefusedFile:
    """The heads and the refused rows as they stand in the file, whoever refused them."""
    why: dict[int, list[Rejected]] = {}
    for one in rejected:
        why.setdefault(one.line, []).append(one)
    last = reading.head_line + reading.head_lines - 1 if reading.head_line else 0
    with opened(content, reading) as source:
        kept = [
            (line, cells) for line, cells in source.lines if line in why or reading.head_line <= line <= last
        ]
    width = max((len(cells) for _, cells in kept), default=0)
    heads = [cells for line, cells in kept if line <= last] or [[]]
    rows = [_row(cells, width, *_said(line, why[line])) for line, cells in kept if line in why]
    more = map(say, REASONS)
    first, *others = (_row(cells, width) for cells in heads)
    table = TableFile(source.sheet.name if source.sheet else "", [*map(str, first), *more], [*others, *rows])
    stem = say("{name} refused", name=PurePath(name).stem)
    if source.sheet:
        return RefusedFile(f"{stem}.xlsx", as_workbook(table), WORKBOOK)
    charset = "utf-8-sig" if source.charset == "utf-8" else source.charset
    return RefusedFile(f"{stem}.csv", as_csv(table, source.separator, charset), "text/csv")


def has_reasons(cells: Collection[str]) -> bool:
    """Whether these are the heads of such a file."""
    return all(say(one) in cells or one in cells for one in REASONS)


def _said(line: int, why: Sequence[Rejected]) -> tuple[Cell, Cell, Cell]:
    reasons = [_reason(one) for one in why]
    besides = [more for one in why for more in one.besides]
    allowed = list(dict.fromkeys(one.allowed for one in why))
    return line, "; ".join([*reasons, *besides]), "; ".join(allowed)


def _reason(one: Rejected) -> str:
    if not one.value:
        return say("{column} {reason}", column=one.column, reason=one.reason)
    return say("{column}: “{value}” {reason}", column=one.column, value=one.value, reason=one.reason)


def _row(cells: Sequence[Raw], width: int, *more: Cell) -> list[Cell]:
    return [*map(_cell, cells), *[""] * (width - len(cells)), *more]


def _cell(raw: Raw) -> Cell:
    """A number as a number: a text would be read with the decimal mark of the list."""
    return Decimal(raw) if isinstance(raw, Figure) and Decimal(raw).is_finite() else raw_text(raw)
