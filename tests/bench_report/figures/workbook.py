"""Invoice lines into the accounts' workbook, beside bare openpyxl on the same cells."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from io import BytesIO

from quotes.calc.books.export import COLUMNS, Cells
from tests.bench_report.figure import Figure

AT = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
KINDS = ("labour", "part", "machine work", "consumables")


def prepare(lines: int) -> list[Cells]:
    return [_line(number) for number in range(lines)]


def ours(rows: list[Cells]) -> bytes:
    """The workbook with all its sheets, of which one is filled."""
    from quotes.documents.books.workbook import BooksWorkbook

    book = BooksWorkbook("Batch", "Sorrel Yard Engines", AT, 2)
    for row in rows:
        book.add("Lines", row)
    return book.finished()


def bare(rows: list[Cells]) -> bytes:
    """What openpyxl makes of the cells without being asked for more than that."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Lines")
    sheet.append([column.heading for column in COLUMNS["Lines"]])
    for row in rows:
        sheet.append(row)
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def _line(number: int) -> Cells:
    """One line, no two alike in what they say and cost."""
    invoice, place = divmod(number, 10)
    net = Decimal(number % 90_000 + 125) / 100
    return (
        f"I-2026-{invoice + 1:04}",
        date(2026, 1, 1) + timedelta(days=invoice % 365),
        place + 1,
        KINDS[number % 4],
        f"Set of ring gaps, bore {number % 8 + 1}",
        Decimal(number % 16 + 1),
        "each",
        net,
        net * (number % 16 + 1),
        "standard",
        "S",
        Decimal("20"),
        f"Rider {invoice % 97}",
        f"Q-2026-{invoice % 60 + 1:04}",
        "rings" if number % 3 else None,
        "=not run" if number % 50 == 0 else None,
    )


WORKBOOK = Figure(
    name="workbook",
    what="workbook of invoice lines",
    bare_is="openpyxl, write only, on the same cells",
    unit="lines",
    sizes=(500, 5_000, 50_000),
    prepare=prepare,
    ours=ours,
    bare=bare,
    runs=1,
    goal=1.3,
    most_mb=500,
    by_processor=True,
)
