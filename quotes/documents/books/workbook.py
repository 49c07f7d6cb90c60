"""The workbook that the accounts are handed: sheets filled side by side, row by row."""

from __future__ import annotations

from datetime import datetime
from types import TracebackType
from typing import Self

from quotes.calc.books.export import COLUMNS, Cells, SheetName


class BooksWorkbook:
    """Takes rows in any order and is saved once; used as a context, so that nothing stays on the disk.

    Held in memory is one row.
    """

    def __init__(self, title: str, creator: str, at: datetime, decimals: int) -> None:
        from openpyxl import Workbook  # half a second of import that no page waits for

        from quotes.documents.books.streamed_sheet import StreamedSheet

        self._at = at
        self._book = Workbook(write_only=True)
        self._book.properties.title, self._book.properties.creator = title, creator
        money = "#,##0" + ("." + "0" * decimals if decimals else "")
        self._sheets: dict[SheetName, StreamedSheet] = {}
        for name, columns in COLUMNS.items():
            sheet = StreamedSheet(self._book, name, columns, money)
            self._book._add_sheet(sheet)  # type: ignore[attr-defined]
            self._sheets[name] = sheet

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        for sheet in self._sheets.values():
            sheet.thrown_away()

    def add(self, sheet: SheetName, cells: Cells) -> None:
        """Write one row on a sheet."""
        self._sheets[sheet].add(cells)

    def finished(self) -> bytes:
        """The bytes of the workbook; nothing can be added after that."""
        from quotes.documents.books.same_bytes import saved

        return saved(self._book, self._at)
