"""Reads an exported workbook by another library, and has a spreadsheet program save it again."""

from __future__ import annotations

import io
import subprocess
from decimal import Decimal
from pathlib import Path
from typing import Any

from python_calamine import CalamineWorkbook

Rows = list[dict[str, Any]]


def sheets(content: bytes) -> dict[str, Rows]:
    """Every sheet as rows by heading, as python-calamine reads them."""
    book = CalamineWorkbook.from_filelike(io.BytesIO(content))
    return {name: _rows(book.get_sheet_by_name(name).to_python()) for name in book.sheet_names}


def _rows(cells: list[list[Any]]) -> Rows:
    head, *body = cells
    return [dict(zip(map(str, head), row, strict=True)) for row in body]


def total(rows: Rows, heading: str) -> Decimal:
    """The sum of a column of money, exact to the cent."""
    return sum((Decimal(str(row[heading])) for row in rows if row[heading] != ""), Decimal(0))


def saved_again(content: bytes, folder: Path) -> bytes:
    """The workbook as LibreOffice saves it, run on a profile of its own."""
    given, made = folder / "given.xlsx", folder / "made"
    given.write_bytes(content)
    command = [
        "soffice",
        f"-env:UserInstallation=file://{folder}/profile",
        "--headless",
        "--convert-to",
        "xlsx",
        "--outdir",
        str(made),
        str(given),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return (made / "given.xlsx").read_bytes()
