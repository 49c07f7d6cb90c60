"""A sheet that is written row by row and never held in memory, its cells set by column.

openpyxl's own write-only sheet makes a cell, asks what its value is and gives it its style, for each one
anew. Here a column's cells are one cell that is filled again and again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet._write_only import WriteOnlyWorksheet
from openpyxl.worksheet.header_footer import HeaderFooterItem
from openpyxl.worksheet.properties import PageSetupProperties

from quotes.calc.books.export import Cells, CellValue, Column
from quotes.documents.spreadsheet import DATE, storable

if TYPE_CHECKING:
    from openpyxl import Workbook

RUNS = ("=", "+", "-", "@", "\t", "\r")
LONGEST = 32_767
"""Characters of one cell; a workbook with more does not open."""
TYPES = {"text": "s", "date": "d", "money": "n", "number": "n", "count": "n"}
NUMBER = "#,##0.####"


class StreamedSheet(WriteOnlyWorksheet):
    """A write-only sheet whose columns say how their cells are set."""

    # Set by openpyxl; its type stubs do not know them of a write-only sheet.
    auto_filter: Any
    column_dimensions: Any
    page_setup: Any
    sheet_properties: Any
    _writer: Any

    def __init__(self, book: Workbook, title: str, columns: Sequence[Column], money: str) -> None:
        super().__init__(book, title)
        self._filled = 0
        self._types = [TYPES[column.kind] for column in columns]
        self._plain = [self._cell(place, column, money) for place, column in enumerate(columns, start=1)]
        self._quoted = [self._cell(place, column, money) for place, column in enumerate(columns, start=1)]
        for cell in self._quoted:
            cell.quotePrefix = True
        counts = (Column(column.heading, "count", column.width) for column in columns)
        self._counts = [self._cell(place, column, money) for place, column in enumerate(counts, start=1)]
        self._set_up(columns)

    def add(self, cells: Cells) -> None:
        """Write one row; its cells stand in the order of the columns."""
        self.append(cells)

    def _values_to_row(self, values: Sequence[CellValue], row_idx: int) -> Iterator[Any]:
        """What openpyxl asks for each row: the filled cells of it."""
        self._filled = row_idx
        places = zip(values, self._plain, self._quoted, self._counts, self._types, strict=True)
        for value, plain, quoted, count, data_type in places:
            if value is None or value == "":
                continue
            # A whole number among sums is a count of things.
            cell = count if type(value) is int else plain
            if data_type == "s" or isinstance(value, str):
                text = str(value)
                value = text if text.isprintable() and len(text) <= LONGEST else storable(text)[:LONGEST]
                cell = quoted if value.startswith(RUNS) else plain
                cell.data_type = "s"
            else:
                cell.data_type = data_type
            # Past the property: that would ask for the type again and take = for a formula.
            cell._value = value
            cell.row = row_idx
            yield cell

    def close(self) -> None:
        """Name the rows that a filter covers, and end the sheet."""
        last = get_column_letter(len(self._plain))
        self.auto_filter.ref = f"A1:{last}{max(self._filled, 1)}"
        super().close()

    def thrown_away(self) -> None:
        """End a sheet that nobody will save, and take its file off the disk; nothing where it was saved."""
        if not self.closed:
            self.close()
            self._writer.cleanup()

    def _cell(self, place: int, column: Column, money: str) -> Any:
        cell = WriteOnlyCell(self)
        formats = {"money": money, "date": DATE, "number": NUMBER, "count": "0", "text": "General"}
        cell.number_format = formats[column.kind]
        cell.alignment = _alignment(column)
        cell.column = place
        return cell

    def _set_up(self, columns: Sequence[Column]) -> None:
        """Widths, a head that stays in sight and on each page, landscape; then the head itself."""
        for place, column in enumerate(columns, start=1):
            self.column_dimensions[get_column_letter(place)].width = column.width
        self.freeze_panes = "A2"
        self.page_setup.orientation = "landscape"
        self.page_setup.fitToWidth, self.page_setup.fitToHeight = 1, 0
        self.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        self.print_title_rows = "1:1"
        foot = self.oddFooter
        assert isinstance(foot, HeaderFooterItem)
        foot.center.text = "&A, page &P of &N"
        body, self._plain = self._plain, [self._head(*one) for one in enumerate(columns, start=1)]
        self.add(tuple(column.heading for column in columns))
        self._plain = body

    def _head(self, place: int, column: Column) -> Any:
        cell = WriteOnlyCell(self)
        cell.font = Font(bold=True)
        cell.border = Border(bottom=Side(style="medium"))
        cell.alignment = _alignment(column)
        cell.column = place
        return cell


def _alignment(column: Column) -> Alignment:
    """Figures to the right; a text stands off from the figure before it."""
    if column.kind == "text":
        return Alignment(horizontal="left", vertical="top", indent=1)
    return Alignment(horizontal="left" if column.kind == "date" else "right", vertical="top")
