"""A file, workbook or text, as lines of cells: nothing is known yet of what they mean."""

from __future__ import annotations

from catalogue.calc.said import say, say_figure
from quotes.imports.cells import KINDS, MOST_BYTES, Table
from quotes.imports.delimited import delimited_table
from quotes.imports.faults import FileFault
from quotes.imports.workbook import workbook_table

PACKED = b"PK"
"""The first bytes of a packed file; every XLSX workbook is one."""


def read_table(content: bytes, sheet: str) -> Table:
    """The named sheet of a workbook, or a CSV file; FileFault where it is neither, empty or too large."""
    if not content.strip():
        raise FileFault(say("The file is empty. Allowed is {kinds}.", kinds=say(KINDS)))
    if len(content) > MOST_BYTES:
        raise FileFault(
            say(
                "The file has {count} bytes. Allowed are at most {most}.",
                count=say_figure(len(content), 0),
                most=say_figure(MOST_BYTES, 0),
            )
        )
    table = workbook_table(content, sheet) if content.startswith(PACKED) else delimited_table(content)
    if not table.rows:
        raise FileFault(
            say(
                "There is nothing in the sheet “{sheet}”. Allowed is {kinds}.",
                sheet=table.sheet,
                kinds=say(KINDS),
            )
        )
    return table
