"""Files of customers that the tests hand in."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Callable, Iterable, Sequence
from datetime import date, datetime

from openpyxl import Workbook

from quotes.imports.customer_columns import COLUMNS, SHEET, Choices
from quotes.imports.faults import RowFault
from quotes.imports.read_customers import ReadFile, read_customers

ON = date(2027, 1, 4)
CHOICES = Choices(
    type_code={"single450": "450 single", "four600": "600 inline four"},
    duty={"sprint": "sprint road race", "motocross": "motocross"},
    tier={"refresh": "refresh", "mild": "mild", "full": "full power"},
    units_of_duty={"sprint": ("mi", "km", "h"), "motocross": ("h",)},
)
GOOD: dict[str, object] = {
    "Customer": "Ines Karrow",
    "E-mail": "ines@karrow.example",
    "Engine type": "four600",
    "Engine number": "H4-20417",
    "Used": "4100",
    "Unit": "mi",
    "Duty": "sprint",
    "From": "2026-03-01",
    "To": "2026-10-10",
}
HEADINGS = tuple(column.heading for column in COLUMNS)


def line(**changes: object) -> list[object]:
    """One good line with some cells changed; a key is a heading with _ for space and mark."""
    values = dict(GOOD)
    for key, value in changes.items():
        heading = next(one for one in HEADINGS if one.replace(" ", "_").replace("-", "_") == key)
        values[heading] = value
    return [values.get(heading) for heading in HEADINGS]


def customer_only(name: str, **changes: object) -> list[object]:
    blank = {key.replace(" ", "_").replace("-", "_"): None for key in GOOD}
    return line(**(blank | {"Customer": name} | changes))


def workbook(*lines: Sequence[object], headings: Sequence[object] = HEADINGS, sheet: str = SHEET) -> bytes:
    book = Workbook()
    page = book.active
    assert page is not None
    page.title = sheet
    page.append(list(headings))
    for one in lines:
        page.append(list(one))
    return saved(book)


def saved(book: Workbook) -> bytes:
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def with_part(content: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """A workbook with one of its packed parts changed by hand."""
    held = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            new.writestr(part, change(old.read(part)) if part == name else old.read(part))
    return held.getvalue()


def csv_file(*lines: Iterable[str], encoding: str = "utf-8", separator: str = ",") -> bytes:
    return "\n".join(separator.join(cells) for cells in lines).encode(encoding)


def read(content: bytes) -> ReadFile:
    return read_customers(content, CHOICES, ON)


def as_file(*lines: Sequence[object]) -> bytes:
    """A CSV file where text can say all that the lines hold, else a workbook, which takes longer to read."""
    if any(
        not isinstance(one, str | date | None) or isinstance(one, datetime) for row in lines for one in row
    ):
        return workbook(*lines)
    held = io.StringIO()
    csv.writer(held).writerows([HEADINGS, *lines])
    return held.getvalue().encode()


def fault_of(*lines: Sequence[object]) -> RowFault:
    """The only fault of a file with these lines."""
    faults = read(as_file(*lines)).faults
    assert len(faults) == 1, faults
    return faults[0]
