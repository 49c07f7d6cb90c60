"""Reads a sheet of a workbook, or all, in a process of its own with little memory, and prints it as JSON.

One cell in the far corner of a sheet makes the reader ask for half a terabyte, which ends the whole process;
so it is started by file name, imports nothing of this project and may use a gigabyte and twenty seconds.
"""

from __future__ import annotations

import io
import json
import math
import resource
import sys
import zipfile
from datetime import date, datetime
from typing import Any

MEMORY = 1 << 30
SECONDS = 20
LONGEST_CELL = 20_000
"""A longer text is cut: it is a fault anyway, and named by the cell it stands in."""
MOST_TEXT = 8_000_000
"""Characters in all cells together: a short file can repeat one long text a million times."""
ALL = "*"
"""In place of a sheet's name, which can't be this: every sheet."""
BARE = (b"<f>", b"<f ", b't="e"')
"""How a formula or an error begins in the packed file."""


def main() -> None:
    sheet_name, rows, columns = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    content = sys.stdin.buffer.read()
    told = read_all(content, rows, columns) if sheet_name == ALL else read(content, sheet_name, rows, columns)
    json.dump(told, sys.stdout)


def read(content: bytes, sheet_name: str, most_rows: int, most_columns: int) -> dict[str, Any]:
    """The sheet of that name, or the only one there is; `rows` begin at the first line of the sheet."""
    from python_calamine import CalamineWorkbook

    workbook = CalamineWorkbook.from_filelike(io.BytesIO(content))
    names = workbook.sheet_names
    wanted = [name for name in names if name.strip().casefold() == sheet_name.casefold()]
    wanted = wanted or (names if len(names) == 1 else [])
    if not wanted:
        return {"names": names, "sheet": None}
    sheet = workbook.get_sheet_by_name(wanted[0])
    if sheet.total_height > most_rows or sheet.total_width > most_columns:
        return {"names": names, "sheet": wanted[0], "size": [sheet.total_height, sheet.total_width]}
    rows = [[cell(value) for value in row] for row in sheet.to_python(skip_empty_area=False)]
    if sum(len(one[1]) for row in rows for one in row if one) > MOST_TEXT:
        return {"names": names, "sheet": wanted[0], "size": [len(rows), most_columns + 1]}
    mark_formulas(content, wanted[0], rows)
    return {"names": names, "sheet": wanted[0], "rows": rows}


def read_all(content: bytes, most_rows: int, most_columns: int) -> dict[str, Any]:
    """Every sheet by its name, unless one is too large or all hold too much."""
    from python_calamine import CalamineWorkbook

    workbook = CalamineWorkbook.from_filelike(io.BytesIO(content))
    sheets: dict[str, list[list[list[str] | None]]] = {}
    left = MOST_TEXT
    for name in workbook.sheet_names:
        sheet = workbook.get_sheet_by_name(name)
        too_large = sheet.total_height > most_rows or sheet.total_width > most_columns
        if not too_large:
            sheets[name] = [[cell(value) for value in row] for row in sheet.to_python(skip_empty_area=False)]
            left -= sum(len(one[1]) for row in sheets[name] for one in row if one)
        if too_large or left < 0:
            return {"sheet": name, "size": [sheet.total_height, sheet.total_width]}
    if has_bare(content):
        for name, rows in sheets.items():
            mark_formulas(content, name, rows)
    return {"sheets": sheets}


def has_bare(content: bytes) -> bool:
    """Whether any sheet holds a formula or an error: to ask each sheet by itself takes long."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        sheets = [name for name in package.namelist() if name.startswith("xl/worksheets/")]
        return any(mark in package.read(name) for name in sheets for mark in BARE)


def cell(value: object) -> list[str] | None:
    """A cell as kind and text; None where it is blank."""
    if isinstance(value, str):
        return ["text", value[:LONGEST_CELL]] if value.strip() else None
    if isinstance(value, bool):
        return ["odd", "TRUE" if value else "FALSE"]
    if isinstance(value, datetime):
        return ["date", value.date().isoformat()]
    if isinstance(value, date):
        return ["date", value.isoformat()]
    if isinstance(value, (int, float)) and math.isfinite(value):
        return ["number", repr(value)]
    return ["odd", str(value)]


def mark_formulas(content: bytes, sheet_name: str, rows: list[list[list[str] | None]]) -> None:
    """Name blank cells that hold a formula without a result, or an error: they are not blank to a person."""
    from openpyxl import load_workbook

    sheet = load_workbook(io.BytesIO(content), read_only=True)[sheet_name]
    width = max(map(len, rows), default=0)
    found = sheet.iter_rows(max_row=len(rows), max_col=width) if width else ()
    for cells, line in zip(rows, found, strict=False):
        for place, one in enumerate(line[: len(cells)]):
            if one.data_type in ("f", "e") and cells[place] is None:
                cells[place] = ["odd", str(one.value)[:LONGEST_CELL]]


if __name__ == "__main__":
    main()
