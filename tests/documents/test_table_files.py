"""A list taken away as a workbook: figures as they are read, and a page that prints."""

from __future__ import annotations

import io
from decimal import Decimal

from openpyxl import load_workbook

from catalogue.documents.table_files import TableFile, as_workbook

TABLE = TableFile(
    "Bills",
    ["Bill", "Pieces", "Sum"],
    [["S-1", 3, Decimal("3696.7")], ["=S-2", 12, Decimal("410.75")], ["S-3", 1, None]],
)


def test_figures_of_a_column_are_written_with_as_many_decimals() -> None:
    sheet = load_workbook(io.BytesIO(as_workbook(TABLE))).active
    assert sheet is not None
    assert [sheet.cell(row, 3).number_format for row in (2, 3)] == ["#,##0.00", "#,##0.00"]
    assert (sheet["C2"].value, sheet["A3"].value, sheet["A3"].data_type) == (3696.7, "=S-2", "s")


def test_it_prints_as_wide_as_the_page_with_its_head_on_each() -> None:
    sheet = load_workbook(io.BytesIO(as_workbook(TABLE))).active
    assert sheet is not None
    assert (sheet.page_setup.orientation, sheet.page_setup.fitToWidth) == ("landscape", 1)
    assert (sheet.print_title_rows, sheet.auto_filter.ref) == ("$1:$1", "A1:C4")
