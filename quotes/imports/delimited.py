"""A CSV file as lines of cells: its encoding and its separator are found out."""

from __future__ import annotations

import codecs
import csv
import io

from catalogue.calc.said import say, say_figure, to_say
from quotes.imports.cells import KINDS, LONGEST_CELL, MOST_COLUMNS, MOST_ROWS, Cell, Row, Table
from quotes.imports.faults import FileFault

SEPARATORS = ",;\t"
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
WIDE = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
SHEET = to_say("CSV file")
FEW_NULS = 100
"""More NUL bytes than one in so many: this is no text, whatever its name says."""


def delimited_table(content: bytes) -> Table:
    """The lines of a CSV file; FileFault where it is no text, or too long."""
    text = decoded(content)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_separator(text), strict=True)
    rows: list[Row] = []
    begins = 1
    try:
        for fields in reader:
            rows.append(Row(begins, tuple(_cell(field) for field in fields)))
            begins = reader.line_num + 1
            _check_size(rows)
    except csv.Error as error:
        raise FileFault(
            say(
                "Line {line} can't be read ({error}): close its quotation marks.",
                line=begins,
                error=error,
            )
        ) from error
    return Table(say(SHEET), tuple(row for row in rows if any(row.cells)))


def decoded(content: bytes) -> str:
    """The text of a file in UTF-8, with or without its mark, else in Windows-1252."""
    if content.startswith(OLD_WORKBOOK):
        raise FileFault(
            say(
                "This is a workbook in the old XLS form, or a locked one. Allowed is {kinds}.",
                kinds=say(KINDS),
            )
        )
    if content.startswith(WIDE) or content.count(0) * FEW_NULS > len(content):
        raise FileFault(say("The file is no text in a known encoding. Allowed is {kinds}.", kinds=say(KINDS)))
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise FileFault(
        say("The file is neither in UTF-8 nor in Windows-1252. Allowed is {kinds}.", kinds=say(KINDS))
    )


def _separator(text: str) -> str:
    """The separator that the first filled line uses most; a comma where it has none."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max(SEPARATORS, key=first.count)


def _cell(field: str) -> Cell | None:
    return Cell("text", field[:LONGEST_CELL]) if field.strip() else None


def _check_size(rows: list[Row]) -> None:
    if len(rows) > MOST_ROWS or len(rows[-1].cells) > MOST_COLUMNS:
        raise FileFault(
            say(
                "The file is too large. Allowed are {rows} lines and {columns} columns.",
                rows=say_figure(MOST_ROWS, 0),
                columns=MOST_COLUMNS,
            )
        )
