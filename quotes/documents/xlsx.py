"""The quote as a workbook: the comparison, each option's lines, and the steps, numbers as numbers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time
from io import BytesIO
from typing import TYPE_CHECKING

from django.utils import translation

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.name_words import said_unit
from quotes.calc.sheet.values import Comparison, Option
from quotes.calc.sheet.words import share_in_hundredths
from quotes.documents.itemised import SECTIONS
from quotes.documents.questions import Question, columns, questions
from quotes.documents.spreadsheet import (
    BOLD,
    DATE,
    HEAD,
    PLAIN,
    QUANTITY,
    SHARE,
    Look,
    Value,
    fit,
    money_format,
    print_setup,
    put,
    sheet_name,
)
from quotes.documents.words import first_large, listed, percent, plain_name, sign_follows, symbol

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

LINE_HEADS = (
    to_say("State"),
    to_say("Section"),
    to_say("Item"),
    to_say("Quantity"),
    to_say("Unit"),
    to_say("Each"),
    to_say("Net"),
    to_say("Tax code"),
    to_say("Why"),
)
STEP_HEADS = (
    to_say("Way"),
    to_say("Step"),
    to_say("Adds"),
    to_say("More"),
    to_say("With tax"),
    to_say("Finishes"),
    to_say("Quoted"),
)
_HEAD_ROW = 6
"""Above it stand what the workbook is, for whom, and until when."""
_NET = LINE_HEADS.index("Net") + 1


def quote_workbook(sheet: Sheet) -> bytes:
    """The workbook of an issued sheet. Sums are the stored ones, written as numbers, not as formulas."""
    with translation.override(sheet.heading.language):
        return _workbook(sheet)


def _workbook(sheet: Sheet) -> bytes:
    from openpyxl import Workbook  # 0.4 s of import that no page waits for

    book = Workbook()
    book.remove(book.worksheets[0])
    _comparison_sheet(book, sheet)
    for option in sheet.comparison.options:
        _line_sheet(book, sheet, option)
    _steps_sheet(book, sheet)
    heading = sheet.heading
    book.properties.title = say(
        "Quote {number}, revision {revision}", number=heading.number, revision=heading.revision
    )
    book.properties.creator = heading.workshop.name
    book.properties.created = datetime.combine(heading.issued_on, time())
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def _money(comparison: Comparison, language: str, *, bold: bool = False, total: bool = False) -> Look:
    sign, after = symbol(comparison.currency, language), sign_follows(language)
    written = money_format(sign, comparison.decimals, after=after)
    return Look(written, bold=bold or total, rule="total" if total else "")


def _titled(book: Workbook, sheet: Sheet, name: str, heads: Sequence[str]) -> Worksheet:
    """A sheet with its title rows and its head, which stays in sight."""
    heading = sheet.heading
    page: Worksheet = book.create_sheet(sheet_name(name, book.sheetnames))
    title = say(
        "{workshop}: quote {number}, revision {revision}",
        workshop=heading.workshop.name,
        number=heading.number,
        revision=heading.revision,
    )
    put(page, 1, 1, title, BOLD, wrap=False)
    whose = say(
        "For {customer}: {engine}, {number}",
        customer=heading.customer.name,
        engine=heading.engine_name,
        number=heading.engine_number,
    )
    put(page, 2, 1, whose, wrap=False)
    put(page, 3, 1, first_large(sheet.comparison.planned_in_words), wrap=False)
    put(page, 4, 1, say("Dated"))
    put(page, 4, 2, heading.issued_on, Look(DATE))
    put(page, 4, 3, say("Stands until"), Look(right=True))
    put(page, 4, 4, heading.valid_until, Look(DATE))
    for column, head in enumerate(heads, start=1):
        put(page, _HEAD_ROW, column, head, HEAD)
    return page


def _finished(page: Worksheet, sheet: Sheet, frozen_columns: int) -> None:
    page.freeze_panes = f"{'ABCDEF'[frozen_columns]}{_HEAD_ROW + 1}"
    fit(page, _HEAD_ROW)
    print_setup(page, sheet.heading.paper, _HEAD_ROW)


def _comparison_sheet(book: Workbook, sheet: Sheet) -> None:
    comparison, heading = sheet.comparison, sheet.heading
    page = _titled(book, sheet, say("Comparison"), (say("Question"), *columns(comparison)))
    rows = questions(comparison, heading.language, heading.class_name, for_workbook=True)
    for row, question in enumerate(rows, start=_HEAD_ROW + 1):
        put(page, row, 1, question.asked, BOLD if question.total else PLAIN)
        look = _look_of(question, comparison, heading.language)
        for column, cell in enumerate(question.cells, start=2):
            words = f"{cell.words}, {cell.note}" if cell.note else cell.words
            value = words if cell.value is None else cell.value
            put(page, row, column, _in_hundredths(value, question), look)
    last = _HEAD_ROW + 2 + len(rows)
    for row, sentence in enumerate((*sheet.honesty, *sheet.cautions), start=last):
        put(page, row, 1, sentence)
        page.merge_cells(start_row=row, end_row=row, start_column=1, end_column=1 + len(columns(comparison)))
        page.row_dimensions[row].height = 30
    _finished(page, sheet, 1)


def _in_hundredths(value: Value, question: Question) -> Value:
    """A chance bears no third figure, not even behind its format."""
    if question.kind != "share" or not isinstance(value, float):
        return value
    return share_in_hundredths(value)


def _look_of(question: Question, comparison: Comparison, language: str) -> Look:
    looks = {
        "money": _money(comparison, language, total=question.total),
        "share": Look(SHARE, right=True),
        "date": Look(DATE),
        "hours": Look("0.0"),
    }
    return looks.get(question.kind, Look(right=True))


def _line_sheet(book: Workbook, sheet: Sheet, option: Option) -> None:
    comparison, language = sheet.comparison, sheet.heading.language
    page = _titled(book, sheet, option.name, [say(head) for head in LINE_HEADS])
    row = _HEAD_ROW + 1
    for line in option.lines:
        _put_line(page, row, line, line.state, comparison, language)
        row += 1
    row = _put_sums(page, row, option, comparison, language) + 1
    if option.if_needed:
        put(page, row, 1, say("Priced before tax, and not included"), BOLD)
        for offset, line in enumerate(option.if_needed, start=1):
            _put_line(page, row + offset, line, to_say("if needed"), comparison, language)
    _finished(page, sheet, 3)
    page.column_dimensions["A"].width = 12


def _put_line(
    page: Worksheet, row: int, line: Line, state: str, comparison: Comparison, language: str
) -> None:
    money = _money(comparison, language)
    values: tuple[tuple[Value, Look], ...] = (
        (say(state), BOLD if state == "must" else PLAIN),
        (say(dict(SECTIONS)[line.kind]), PLAIN),
        (first_large(plain_name(line.description)), PLAIN),
        (line.quantity, Look(QUANTITY)),
        (said_unit(line.unit), PLAIN),
        (line.unit_price, money),
        (line.net, money),
        (line.tax_code, PLAIN),
        (f"{line.reason} {line.edited}".strip(), PLAIN),
    )
    for column, (value, look) in enumerate(values, start=1):
        put(page, row, column, value, look)


def _put_sums(page: Worksheet, row: int, option: Option, comparison: Comparison, language: str) -> int:
    """Net, each tax, gross; the row after them."""
    taxes = [
        (f"{first_large(name)} {percent(rate, language)}", tax)
        for group in option.tax_groups
        for name, rate, tax in group.components
    ]
    sums = [(say("Sum before tax"), option.net.typical), *taxes, (say("Sum with tax"), option.gross.typical)]
    for offset, (words, amount) in enumerate(sums):
        total = offset == len(sums) - 1
        put(page, row + offset, 3, words, Look(bold=True, rule="total" if total else ""))
        put(page, row + offset, _NET, amount, _money(comparison, language, bold=True, total=total))
    return row + len(sums)


def _steps_sheet(book: Workbook, sheet: Sheet) -> None:
    comparison, language = sheet.comparison, sheet.heading.language
    page = _titled(book, sheet, say("Steps"), [say(head) for head in STEP_HEADS])
    money, row = _money(comparison, language), _HEAD_ROW
    for option in comparison.options:
        for step in option.ladder:
            row += 1
            values: tuple[tuple[Value, Look], ...] = (
                (option.name, PLAIN),
                (step.number, PLAIN),
                (first_large(listed([plain_name(name) for name in step.names])), PLAIN),
                (step.more, money),
                (step.gross, money),
                (share_in_hundredths(step.chance), Look(SHARE, right=True)),
                (say("this is the option quoted") if step.is_option else "", PLAIN),
            )
            for column, (value, look) in enumerate(values, start=1):
                put(page, row, column, value, look)
    _finished(page, sheet, 2)
