"""A file of customers and engines: bytes to checked customers, or every fault with its place. No Django."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quotes.calc.intake.given_customers import CustomerGiven
from quotes.imports.customer_columns import SHEET, Choices
from quotes.imports.customer_groups import gather
from quotes.imports.customer_lines import read_lines
from quotes.imports.faults import RowFault
from quotes.imports.table import read_table


@dataclass(frozen=True, slots=True)
class ReadFile:
    """What a file holds. Where there are faults the customers are those of the sound lines."""

    sheet: str
    lines: int
    customers: tuple[CustomerGiven, ...]
    faults: tuple[RowFault, ...]


def read_customers(content: bytes, choices: Choices, on: date) -> ReadFile:
    """Read and check a workbook or CSV file. FileFault where it can't be read at all.

    No day in it may lie after `on`.
    """
    table = read_table(content, SHEET)
    lines, faults = read_lines(table, choices, on)
    customers, contradictions = gather(table.sheet, lines)
    found = sorted([*faults, *contradictions], key=lambda fault: fault.line)
    return ReadFile(table.sheet, len(table.rows) - 1, customers, tuple(found))
