"""Cells of a workbook: numbers as numbers with their format, dates as dates, text that no sheet runs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from catalogue.calc.said import say

if TYPE_CHECKING:
    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

Value = str | int | float | Decimal | date | None
PAPER_CODES = {"A4": 9, "Letter": 1}
DATE = "d mmm yyyy"
SHARE = "0%"
"""Whole per cent. What would read as nought or all is written in words: 0.999 must not look certain."""
QUANTITY = "0.###"
WIDEST, NARROWEST = 60, 9
_RUN = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True)
class Look:
    """How a cell is set."""

    format: str = "General"
    bold: bool = False
    rule: Literal["", "head", "total"] = ""
    right: bool = False


PLAIN, HEAD, BOLD = Look(), Look(bold=True, rule="head"), Look(bold=True)


def money_format(symbol: str, decimals: int, *, after: bool = False) -> str:
    """A number format with the sign of the currency; the sign is quoted, so that no letter is read as code.

    >>> money_format("€", 2), money_format("€", 2, after=True)
    ('"€"#,##0.00', '#,##0.00 "€"')
    """
    places = "." + "0" * decimals if decimals else ""
    sign = f'"{symbol.replace(chr(34), "")}"'
    return f"#,##0{places} {sign}" if after else f"{sign}#,##0{places}"


def storable(text: str) -> str:
    """The text without what a workbook refuses: control characters and halves of letters."""
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    return ILLEGAL_CHARACTERS_RE.sub("", text).encode("utf-8", "ignore").decode()


def put(
    sheet: Worksheet, row: int, column: int, value: Value, look: Look = PLAIN, *, wrap: bool = True
) -> None:
    """Write one cell. Text stays text whatever it begins with, also when somebody edits it later."""
    from openpyxl.styles import Alignment, Border, Font, Side

    cell: Cell = sheet.cell(row=row, column=column)  # type: ignore[assignment]
    if isinstance(value, str):
        cell.value = storable(value)
        # Else openpyxl stores a text that begins with = as a formula.
        cell.data_type = "s"
        cell.quotePrefix = value.startswith(_RUN)
    else:
        cell.value = value
        cell.number_format = look.format
    if look.bold:
        cell.font = Font(bold=True)
    right = look.right or not isinstance(value, str)
    cell.alignment = Alignment(horizontal="right" if right else "left", vertical="top", wrap_text=wrap)
    if look.rule == "head":
        cell.border = Border(bottom=Side(style="medium"))
    elif look.rule == "total":
        cell.border = Border(top=Side(style="thin"), bottom=Side(style="double"))


def fit(sheet: Worksheet, from_row: int) -> None:
    """Column widths for what stands from that row on; longer text wraps."""
    from openpyxl.utils import get_column_letter

    for column in sheet.iter_cols(min_row=from_row):
        longest = max((_length(cell.value) for cell in column), default=0)
        letter = get_column_letter(column[0].column or 1)
        sheet.column_dimensions[letter].width = min(max(longest + 2, NARROWEST), WIDEST)


def _length(value: object) -> int:
    if isinstance(value, date):
        return len("25 Nov 2026")
    if isinstance(value, float):
        return len("over 99%")
    if isinstance(value, Decimal):
        return len(f"{value:,}") + 2
    return max((len(part) for part in str(value or "").split("\n")), default=0)


def print_setup(sheet: Worksheet, paper: Literal["A4", "Letter"], head_row: int) -> None:
    """Landscape, as wide as one page, the head on each."""
    from openpyxl.worksheet.header_footer import HeaderFooterItem
    from openpyxl.worksheet.properties import PageSetupProperties

    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = PAPER_CODES[paper]
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = f"{head_row}:{head_row}"
    foot = sheet.oddFooter
    assert isinstance(foot, HeaderFooterItem)
    foot.center.text = say("{sheet}, page {page} of {pages}", sheet="&A", page="&P", pages="&N")


def sheet_name(name: str, taken: list[str]) -> str:
    """A name that a workbook allows, not used yet."""
    plain = "".join(" " if letter in r"[]:*?/\\" else letter for letter in storable(name)).strip("' ")
    plain = (plain or "Sheet")[:28]
    lower = {each.lower() for each in taken}
    return next(
        name for name in (plain, *(f"{plain} {count}" for count in range(2, 10))) if name.lower() not in lower
    )
