"""The lines of a CSV file: its character set and its separator are found out, or are the chosen ones."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterator

from catalogue.calc.said import say, say_figure, to_say
from quotes.imports.bank.charset import CHARSETS, codec_of, guessed_charset
from quotes.imports.faults import FileFault
from quotes.imports.price_list.limits import KINDS, MOST_COLUMNS, MOST_LINES, Line

SEPARATORS = {
    ",": to_say("comma"),
    ";": to_say("semicolon"),
    "\t": to_say("tab"),
    "|": to_say("bar"),
}
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
OTHERS = (
    b"%PDF",
    b"\x1f\x8b",
    b"\x89PNG",
    b"\xff\xd8\xff",
    b"Rar!",
    b"7z\xbc\xaf",
    b"{\\rtf",
    b"<?xml",
    b"<",
)
SAID = re.compile(r'"?sep=([,;\t|])"?', re.IGNORECASE)
"""With such a line some spreadsheets begin a file, to tell its separator."""
FEW_NULS = 100
"""More NUL bytes than one in so many: this is no text, whatever its name says."""
SAMPLE = 400_000
LOOKED_AT = 100
"""Bytes and lines from which a separator is guessed."""


def charset_of(content: bytes, charset: str = "") -> str:
    """The chosen character set, or the one that is found; FileFault where the file is no text of it."""
    if content.startswith(OLD_WORKBOOK):
        raise FileFault(
            say(
                "This is a workbook locked with a password, or one in the old XLS form. Save it as XLSX "
                "without a password and try again."
            )
        )
    chosen = charset or guessed_charset(content)
    wide = chosen == "utf-16"
    if content.startswith(OTHERS) or (not wide and content.count(0) * FEW_NULS > len(content)):
        raise FileFault(
            say("The file is neither a workbook nor a text. Allowed is {kinds}.", kinds=say(KINDS))
        )
    if chosen not in CHARSETS:
        raise FileFault(
            say(
                "“{charset}” is no known character set. Allowed are {names}.",
                charset=charset,
                names=", ".join(CHARSETS),
            )
        )
    try:
        content.decode(codec_of(content, chosen))
    except UnicodeDecodeError as error:
        raise FileFault(
            say(
                "Line {line} holds a character that is not {charset}. Choose another character set.",
                line=say_figure(content.count(b"\n", 0, error.start) + 1, 0),
                charset=say(CHARSETS[chosen]),
            )
        ) from error
    return chosen


def guessed_separator(content: bytes, charset: str) -> str:
    """The one that parts most lines into the same number of columns; a comma where none does.

    A comma that is a decimal mark parts lines too, but seldom all into the same number.
    """
    text = content[:SAMPLE].decode(codec_of(content, charset), errors="ignore")
    sample = [line for line in text.splitlines() if line.strip()][:LOOKED_AT]
    if sample and (said := SAID.fullmatch(sample[0])):
        return said[1]

    def weight(separator: str) -> int:
        widths = Counter(_width(line, separator) for line in sample)
        return max(((width - 1) * times**2 for width, times in widths.items()), default=0)

    return max(SEPARATORS, key=weight)


def _width(line: str, separator: str) -> int:
    try:
        return len(next(csv.reader([line], delimiter=separator), ()))
    except csv.Error:
        return 1


def delimited_lines(content: bytes, charset: str, separator: str) -> Iterator[Line]:
    """The filled lines. FileFault where there are too many, or a quotation mark is never closed."""
    text = io.TextIOWrapper(io.BytesIO(content), encoding=codec_of(content, charset), newline="")
    reader = csv.reader(text, delimiter=separator, strict=True)
    count, begins = 0, 1
    try:
        for cells in reader:
            if any(cells):
                count += 1
                if count > MOST_LINES or len(cells) > MOST_COLUMNS:
                    raise _too_large(len(cells))
                yield begins, cells  # type: ignore[misc]
            begins = reader.line_num + 1
    except csv.Error as error:
        raise FileFault(
            say(
                "Line {line} can't be read ({error}): close its quotation marks.",
                line=say_figure(begins, 0),
                error=error,
            )
        ) from error


def _too_large(width: int) -> FileFault:
    if width > MOST_COLUMNS:
        return FileFault(
            say(
                "The file has a line of {width} columns. Allowed are {columns}.",
                width=say_figure(width, 0),
                columns=MOST_COLUMNS,
            )
        )
    return FileFault(
        say(
            "The file has more than {rows} lines. Split the list and try again.",
            rows=say_figure(MOST_LINES, 0),
        )
    )
