"""Times 50,000 invoice lines into the accounts' workbook against bare openpyxl on the same cells.

Memory is looked at apart from time, for looking slows everything down: the most that writing held at a tenth
of the lines and at all of them, which differ by no more than the finished file.
"""

from __future__ import annotations

import gc
import sys
import tracemalloc
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from io import BytesIO
from statistics import median
from time import perf_counter

from openpyxl import Workbook

from quotes.calc.books.export import COLUMNS, Cells
from quotes.documents.books.workbook import BooksWorkbook

LINES, RUNS = 50_000, 3
GOAL = 1.3
AT = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
KINDS = ("labour", "part", "machine work", "consumables")
MEGABYTE = 1 << 20


def main() -> int:
    """Prints the ratio and the most memory; 1 where the goal is missed."""
    rows = [_line(number) for number in range(LINES)]
    times: dict[str, list[float]] = {"bare": [], "ours": []}
    for _ in range(RUNS):
        times["bare"].append(_time(lambda: bare(rows)))
        times["ours"].append(_time(lambda: ours(rows)))
    ratio = median(times["ours"]) / median(times["bare"])
    small, small_file = _most(lambda: ours(rows[: LINES // 10]))
    large, large_file = _most(lambda: ours(rows))
    cells = sum(value is not None for row in rows for value in row)
    print(
        f"workbook of {LINES:,} invoice lines, {cells:,} cells: {median(times['ours']):.2f} s, bare openpyxl "
        f"write_only {median(times['bare']):.2f} s, ratio {ratio:.2f} (goal {GOAL})"
    )
    print(
        f"most memory beside the rows: {_mb(small)} for {LINES // 10:,} lines with a file of "
        f"{_mb(small_file)}, {_mb(large)} for {LINES:,} with a file of {_mb(large_file)}"
    )
    return int(ratio > GOAL)


def bare(rows: list[Cells]) -> bytes:
    """What openpyxl makes of the cells without being asked for more than that."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Lines")
    sheet.append([column.heading for column in COLUMNS["Lines"]])
    for row in rows:
        sheet.append(row)
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def ours(rows: list[Cells]) -> bytes:
    """The workbook with all its sheets, of which one is filled."""
    book = BooksWorkbook("Batch", "Sorrel Yard Engines", AT, 2)
    for row in rows:
        book.add("Lines", row)
    return book.finished()


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


def _time(work: Callable[[], bytes]) -> float:
    gc.collect()
    began = perf_counter()
    work()
    return perf_counter() - began


def _most(work: Callable[[], bytes]) -> tuple[int, int]:
    """The most that was held at once while working, and the size of what came out, in bytes."""
    gc.collect()
    tracemalloc.start()
    size = len(work())
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most, size


def _mb(size: int) -> str:
    return f"{size / MEGABYTE:.1f} MB"


if __name__ == "__main__":
    sys.exit(main())
