"""The journal as a flat CSV file, for programs that read no workbook: one line for each side of an entry."""

from __future__ import annotations

import csv
import io
from datetime import date
from decimal import Decimal
from tempfile import TemporaryFile
from types import TracebackType
from typing import Self

from quotes.calc.books.export import COLUMNS, Cells, CellValue

RUNS = ("=", "+", "-", "@", "\t", "\r")
ENCODING = "utf-8-sig"
"""With its mark, without which spreadsheets take UTF-8 for something else."""


class FlatFile:
    """Takes rows of the journal and writes them to disk; used as a context, so that the file goes again."""

    def __init__(self, batch: str) -> None:
        self._batch = batch
        self._out = TemporaryFile()  # noqa: SIM115
        self._text = io.TextIOWrapper(self._out, encoding=ENCODING, newline="", write_through=False)
        self._writer = csv.writer(self._text, lineterminator="\r\n")
        self._writer.writerow(["Batch", *(column.heading for column in COLUMNS["Journal"])])

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._text.close()

    def add(self, cells: Cells) -> None:
        self._writer.writerow([self._batch, *(_said(value) for value in cells)])

    def finished(self) -> bytes:
        """The bytes of the file."""
        self._text.flush()
        self._out.seek(0)
        return self._out.read()


def _said(value: CellValue) -> str:
    """Dates as ISO 8601 writes them, sums with a point; a text that a sheet would run gets a ' before it."""
    if value is None:
        return ""
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return format(value, "f")
    text = str(value).replace("\x00", "")
    return f"'{text}" if isinstance(value, str) and text.startswith(RUNS) else text
