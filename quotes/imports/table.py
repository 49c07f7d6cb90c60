"""A file, workbook or text, as lines of cells: nothing is known yet of what they mean."""

from __future__ import annotations

from quotes.imports.cells import KINDS, MOST_BYTES, Table
from quotes.imports.delimited import delimited_table
from quotes.imports.faults import FileFault
from quotes.imports.workbook import workbook_table

PACKED = b"PK"
"""The first bytes of a packed file; every XLSX workbook is one."""


def read_table(content: bytes, sheet: str) -> Table:
    """The named sheet of a workbook, or a CSV file; FileFault where it is neither, empty or too large."""
    if not content.strip():
        raise FileFault(f"The file is empty. Allowed is {KINDS}.")
    if len(content) > MOST_BYTES:
        raise FileFault(f"The file has {len(content):,} bytes. Allowed are at most {MOST_BYTES:,}.")
    table = workbook_table(content, sheet) if content.startswith(PACKED) else delimited_table(content)
    if not table.rows:
        raise FileFault(f"There is nothing in the sheet “{table.sheet}”. Allowed is {KINDS}.")
    return table
