"""A supplier's price list read and checked row by row, beside bare calamine on the same workbook.

The workbook is opened in a process of its own, so both ways tell the processor's time of all processes.
"""

from __future__ import annotations

import io
import resource
from collections.abc import Callable
from time import process_time

from tests.bench_report.figure import Figure
from tests.bench_report.figures.import_prices import NAME, Listed, prepare

RUNS = 3


def ours(listed: Listed) -> float:
    from quotes.imports.price_list.read import read_price_list

    return _processor(lambda: read_price_list(listed.content, NAME, listed.reading))


def bare(listed: Listed) -> float:
    from python_calamine import CalamineWorkbook

    return _processor(
        lambda: CalamineWorkbook.from_filelike(io.BytesIO(listed.content)).get_sheet_by_index(0).to_python()
    )


def _processor(do: Callable[[], object]) -> float:
    """The least of several, in seconds, of this process and of those that it waited for."""
    took = []
    for _ in range(RUNS):
        before = _used()
        do()
        took.append(_used() - before)
    return min(took)


def _used() -> float:
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return process_time() + children.ru_utime + children.ru_stime


READ_PRICES = Figure(
    name="read",
    what="price list read",
    bare_is="calamine to rows",
    unit="rows",
    sizes=(1_000, 10_000, 100_000),
    prepare=prepare,
    ours=ours,
    bare=bare,
    tells_itself=True,
)
