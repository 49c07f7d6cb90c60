"""A price list as lines of cells, whatever kind of file it is."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice

from catalogue.calc.price_list.reading import Reading
from catalogue.calc.said import say, say_figure
from quotes.imports.faults import FileFault
from quotes.imports.price_list.delimited import charset_of, delimited_lines, guessed_separator
from quotes.imports.price_list.limits import KINDS, MOST_BYTES, Line
from quotes.imports.price_list.workbook import ChosenSheet, FirstLines, opened_sheet
from quotes.imports.table import PACKED


@dataclass(frozen=True, slots=True)
class Source:
    """The filled lines of a file, to be taken once, and how it is read."""

    lines: Iterator[Line]
    charset: str = ""
    separator: str = ""
    sheet: ChosenSheet | None = None


@contextmanager
def opened(
    content: bytes, reading: Reading, first: int = 0, kept: FirstLines | None = None
) -> Iterator[Source]:
    """The file as it is read; only its `first` lines where that is above nought. FileFault as it is read."""
    _check_size(content)
    if content.startswith(PACKED):
        with opened_sheet(content, reading.sheet, first, kept) as (sheet, lines):
            yield Source(lines, sheet=sheet)
        return
    charset = charset_of(content, reading.charset)
    separator = reading.separator or guessed_separator(content, charset)
    lines = delimited_lines(content, charset, separator)
    yield Source(islice(lines, first) if first else lines, charset, separator)


def _check_size(content: bytes) -> None:
    if not content[:1000].strip() and not content.strip():
        raise FileFault(say("The file is empty. Allowed is {kinds}.", kinds=say(KINDS)))
    if len(content) > MOST_BYTES:
        raise FileFault(
            say(
                "The file has {count} bytes. Allowed are at most {most}.",
                count=say_figure(len(content), 0),
                most=say_figure(MOST_BYTES, 0),
            )
        )
