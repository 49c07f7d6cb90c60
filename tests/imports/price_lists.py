"""Price lists that the tests hand in: the usual heads, invented articles."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from openpyxl import Workbook

from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.reading import Reading, ReadList
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.suggest import suggest

HEADS = ("Part number", "Description", "Net price", "List price", "GTIN", "Unit", "Pack size", "Replaced by")
RING = ("KV-0417/B", "Ring set", "12.50", "16.90", "4006381333931", "each", "10", "")
Cells = Sequence[object]


def ring(**changed: object) -> list[object]:
    """A sound row with some cells changed, named by their heads with _ for the blank."""
    row: list[object] = list(RING)
    for name, value in changed.items():
        row[[head.replace(" ", "_") for head in HEADS].index(name)] = value
    return row


def csv_file(*rows: Cells, heads: Cells = HEADS, separator: str = ",", charset: str = "utf-8") -> bytes:
    out = io.StringIO()
    csv.writer(out, delimiter=separator).writerows([heads, *rows])
    return out.getvalue().encode(charset)


def workbook(*rows: Cells, heads: Cells = HEADS, above: Iterable[Cells] = ()) -> bytes:
    """As openpyxl writes it: texts as texts, numbers as numbers."""
    book = Workbook()
    assert book.active is not None
    for row in (*above, heads, *rows):
        book.active.append(list(row))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def read(content: bytes, **chosen: object) -> ReadList:
    """The list as it is suggested, but for what is chosen."""
    reading = suggest(content, "list").reading.model_copy(update=chosen)
    return read_price_list(content, "list", Reading.model_validate(reading.model_dump(mode="json")))


def the_row(content: bytes, **chosen: object) -> Listed:
    """The only row, when none is refused."""
    found = read(content, **chosen)
    assert not found.rejected, found.rejected
    (row,) = found.rows
    return row


def refused(content: bytes, **chosen: object) -> tuple[str, str, str]:
    """Column, value and reason of the only refused row, when no other was read."""
    found = read(content, **chosen)
    assert not found.rows, found.rows
    (one,) = found.rejected
    assert one.allowed
    return one.column, one.value, one.reason
