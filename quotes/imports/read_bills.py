"""A file of suppliers' bills: bytes to bills, or every fault with its place. No database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.books.given_bills import BillGiven, LineGiven
from quotes.imports.bill_columns import COLUMNS, cell_value
from quotes.imports.faults import RowFault
from quotes.imports.headed import Value, columns_of, values_of
from quotes.imports.table import read_table

SHEET = "Bills"


@dataclass(frozen=True, slots=True)
class BillFile:
    """What a file holds; where there are faults the bills are those of the sound lines."""

    sheet: str
    lines: int
    bills: tuple[BillGiven, ...]
    faults: tuple[RowFault, ...]


def read_bills(content: bytes, sorts: Mapping[str, str]) -> BillFile:
    """Read a workbook or CSV file. FileFault where it can't be read at all or a column is missing."""
    table = read_table(content, SHEET)
    columns = columns_of(table, COLUMNS)
    bills: dict[tuple[str, str], BillGiven] = {}
    faults: list[RowFault] = []
    for row in table.rows[1:]:
        values, found = values_of(table.sheet, row, columns, partial(cell_value, sorts=sorts))
        faults += found or _take(table.sheet, row.line, values, bills)
    return BillFile(table.sheet, len(table.rows) - 1, tuple(bills.values()), tuple(faults))


def _take(
    sheet: str, line: int, values: Mapping[str, Value], bills: dict[tuple[str, str], BillGiven]
) -> list[RowFault]:
    """Put a sound line to its bill; a day that differs within one bill is a fault."""
    on, due = values["on"], values.get("due_on")
    assert isinstance(on, date)
    assert due is None or isinstance(due, date)
    supplier, number = str(values["supplier"]), str(values["number"])
    key = supplier.casefold(), number.casefold()
    bill = bills.setdefault(key, BillGiven(line, supplier, number, on, due))
    faults = _day_faults(sheet, line, on, due, bill)
    if not faults:
        bill.tax += Decimal(str(values.get("tax", ZERO)))
        kind, words = str(values["kind"]), str(values["description"])
        net, build = Decimal(str(values["net"])), str(values.get("build", ""))
        bill.lines.append(LineGiven(line, kind, words, net, build))
    return faults


def _day_faults(sheet: str, line: int, on: date, due: date | None, bill: BillGiven) -> list[RowFault]:
    """What is wrong with the days of a line: they are those of its bill, and the later one comes later."""
    nothing = say("nothing")
    faults = [
        RowFault(
            sheet,
            line,
            heading,
            str(here),
            say("differs from line {line}", line=bill.line),
            say("{there}, or another number", there=there),
        )
        for heading, here, there in (
            (say("Date"), on, bill.on),
            (say("To pay by"), due or nothing, bill.due_on or nothing),
        )
        if here != there
    ]
    if due and due < on:
        early, allowed = say("is before the bill's date"), say("{on} or later", on=on)
        faults.append(RowFault(sheet, line, say("To pay by"), str(due), early, allowed))
    return faults
