"""The workbook to fill in: headings, one example, and what may stand in each column."""

from __future__ import annotations

import io

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from catalogue.calc.said import say, say_figure
from quotes.imports.cell_values import column_allowed
from quotes.imports.cells import MOST_ROWS
from quotes.imports.customer_columns import COLUMNS, SHEET, Choices

AS_TEXT = "@"
WIDE = 60
EXAMPLE_ROWS = 500
"""So many rows are formatted as text beforehand, so that no engine number becomes a number or a date."""


def template_workbook(choices: Choices) -> bytes:
    """An XLSX workbook whose first sheet is read and whose second one explains it."""
    book = Workbook()
    page = book.active
    assert isinstance(page, Worksheet)
    page.title = SHEET
    page.append([column.heading for column in COLUMNS])
    page.freeze_panes = "B2"
    for place, column in enumerate(COLUMNS, start=1):
        letter = get_column_letter(place)
        page.cell(1, place).font = Font(bold=True)
        page.column_dimensions[letter].width = max(14, len(column.heading) + 4)
        for line in range(2, EXAMPLE_ROWS + 2):
            page.cell(line, place).number_format = AS_TEXT
    _explain(book.create_sheet(say("What is allowed")), choices)
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def _explain(page: Worksheet, choices: Choices) -> None:
    page.append([say("Column"), say("What may stand there"), say("Such as")])
    for column in COLUMNS:
        page.append([column.heading, column_allowed(column, choices), column.example])
    page.append([])
    for sentence in (
        say("One line for each stretch of service. A second stretch repeats customer and engine number."),
        say("A customer without an engine, or an engine without service, takes one line."),
        say("History: new where it has not run, unknown or blank where nobody knows."),
        say("Tune is the build that the stretch was run in; blank means refresh."),
        say(
            "At most {count} lines. Nothing that is in the records already is changed.",
            count=say_figure(MOST_ROWS, 0),
        ),
    ):
        page.append([sentence])
    for letter, width in (("A", 22), ("B", WIDE), ("C", 26)):
        page.column_dimensions[letter].width = width
    for cell in page[1]:
        cell.font = Font(bold=True)
    for row in page.iter_rows(min_row=2, max_row=len(COLUMNS) + 1, min_col=2, max_col=2):
        row[0].alignment = Alignment(wrap_text=True, vertical="top")
