"""Reads one sheet of a workbook in a process of its own with little memory, and prints it line by line.

One cell in the far corner of a sheet makes the reader ask for half a terabyte, which ends the whole process;
so it is started by file name, imports nothing of this project and may use a gigabyte and a minute of work.

Its first line of output says what was found, as JSON; each one after holds a block of the sheet's lines. A
date is `{"date": …}` and what no column can take is `{"odd": …}`.
"""

from __future__ import annotations

import gc
import io
import json
import resource
import sys
from collections.abc import Iterator
from datetime import date, datetime
from itertools import islice
from typing import Any

MEMORY = 1 << 30
SECONDS = 60
AT_ONCE = 2000
"""Lines in one block."""


def main() -> None:
    sheet_name, rows, columns, first = sys.argv[1], *map(int, sys.argv[2:5])
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    # Millions of cells and no cycles: looking for those takes a fifth of the time.
    gc.disable()
    for said in read(sys.stdin.buffer.read(), sheet_name, rows, columns, first):
        sys.stdout.write(json.dumps(said, default=named, separators=(",", ":")))
        sys.stdout.write("\n")


def read(content: bytes, sheet_name: str, most_rows: int, most_columns: int, first: int) -> Iterator[Any]:
    """What was found, then blocks of lines; only the first so many where `first` is above nought."""
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError

    try:
        workbook = CalamineWorkbook.from_filelike(io.BytesIO(content))
    except PasswordError:
        yield {"locked": True}
        return
    except CalamineError as error:
        yield {"damaged": str(error)}
        return
    names = workbook.sheet_names
    wanted = [name for name in names if name.strip().casefold() == sheet_name.strip().casefold()]
    if sheet_name and not wanted:
        yield {"names": names}
        return
    for name in wanted[:1] or names:
        sheet = workbook.get_sheet_by_name(name)
        if sheet.end or sheet_name:
            break
    size = [place + 1 for place in sheet.end] if sheet.end else [0, 0]
    aside = sheet.start[1] if sheet.start else 0
    yield {"names": names, "sheet": name, "size": size, "aside": aside}
    if size[0] > most_rows or size[1] > most_columns:
        return
    lines = iter(sheet.iter_rows() if size[0] else ())
    lines = islice(lines, first) if first else lines
    while block := list(islice(lines, AT_ONCE)):
        yield block


def named(value: object) -> dict[str, str]:
    """What JSON has no word for."""
    if isinstance(value, datetime):
        return {"date": value.date().isoformat()}
    if isinstance(value, date):
        return {"date": value.isoformat()}
    return {"odd": str(value)}


if __name__ == "__main__":
    main()
