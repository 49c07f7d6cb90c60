"""An XLSX workbook as lines of cells, read where it can do no harm."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import zipfile
import zlib
from pathlib import Path
from typing import Any

from catalogue.calc.said import say, say_figure
from quotes.imports.cells import KINDS, MOST_COLUMNS, MOST_ROWS, Cell, Row, Table
from quotes.imports.faults import FileFault

MOST_UNPACKED = 40_000_000
"""A workbook is a packed file: this is the most that it may unpack to."""
SECONDS = 30
CHILD = Path(__file__).with_name("workbook_child.py")
ALL = "*"
"""What the child takes for every sheet."""
PARTS = {"[Content_Types].xml", "xl/workbook.xml"}
DAMAGED = (zipfile.BadZipFile, zlib.error, RuntimeError, NotImplementedError, EOFError, OSError, ValueError)
"""What the standard library raises for a package that is broken, locked, or packed in an unknown way."""


def workbook_table(content: bytes, sheet: str) -> Table:
    """The sheet of that name, or the only one; FileFault where it can't be read."""
    _check_package(content)
    found = _read_apart(content, sheet)
    if found["sheet"] is None:
        names = ", ".join(found["names"])
        raise FileFault(
            say(
                "There is no sheet “{sheet}”, only: {names}. Name the sheet “{sheet}”.",
                sheet=sheet,
                names=names,
            )
        )
    if "size" in found:
        raise _too_large(found, MOST_ROWS)
    return _table(found["sheet"], found["rows"])


def workbook_tables(content: bytes, most_rows: int) -> dict[str, Table]:
    """Every sheet by its name in small letters; FileFault where they can't be read."""
    _check_package(content)
    found = _read_apart(content, ALL, most_rows)
    if "size" in found:
        raise _too_large(found, most_rows)
    return {name.strip().casefold(): _table(name, rows) for name, rows in found["sheets"].items()}


def _table(sheet: str, lines: list[list[list[Any] | None]]) -> Table:
    rows = (
        Row(line, tuple(Cell(*one) if one else None for one in cells))
        for line, cells in enumerate(lines, start=1)
    )
    return Table(sheet, tuple(row for row in rows if any(row.cells)))


def _too_large(found: dict[str, Any], most_rows: int) -> FileFault:
    height, width = found["size"]
    return FileFault(
        say(
            "The sheet “{sheet}” has {height} lines, {width} columns, or too much text. Allowed "
            "are {rows} lines and {columns} columns.",
            sheet=found["sheet"],
            height=say_figure(height, 0),
            width=say_figure(width, 0),
            rows=say_figure(most_rows, 0),
            columns=MOST_COLUMNS,
        )
    )


def _check_package(content: bytes) -> None:
    """Refuse what is no workbook, and what unpacks to too much; the sizes it states are not believed."""
    left = MOST_UNPACKED
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            names = package.namelist()
            for name in names:
                with package.open(name) as part:
                    while left >= 0 and (chunk := part.read(1 << 16)):
                        left -= len(chunk)
    except DAMAGED as error:
        raise FileFault(
            say(
                "The workbook is damaged or locked and can't be opened. Allowed is {kinds}.", kinds=say(KINDS)
            )
        ) from error
    if left < 0:
        raise FileFault(
            say(
                "The workbook unpacks to too much. Allowed are {bytes} bytes.",
                bytes=say_figure(MOST_UNPACKED, 0),
            )
        )
    if not set(names) >= PARTS:
        raise FileFault(
            say("The file is a packed file, but no XLSX workbook. Allowed is {kinds}.", kinds=say(KINDS))
        )


def _read_apart(content: bytes, sheet: str, most_rows: int = MOST_ROWS) -> dict[str, Any]:
    command = [sys.executable, "-I", str(CHILD), sheet, str(most_rows), str(MOST_COLUMNS)]
    try:
        # Our own module, without a shell.
        done = subprocess.run(command, input=content, capture_output=True, timeout=SECONDS, check=False)  # noqa: S603
    except subprocess.TimeoutExpired as error:
        raise FileFault(
            say("The workbook takes too long to read. Copy the lines into an empty one.")
        ) from error
    if done.returncode != 0:
        raise FileFault(
            say(
                "The workbook can't be read: it is damaged, or has cells far away from the others. "
                "Copy the lines into an empty workbook and try again."
            )
        )
    found: dict[str, Any] = json.loads(done.stdout)
    return found
