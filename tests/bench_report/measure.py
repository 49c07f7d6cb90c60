"""Times a figure: bare and ours in turn, so that a busy machine slows both; the middle one of several."""

from __future__ import annotations

import gc
import os
import sys
import traceback
from collections.abc import Callable
from statistics import median
from time import perf_counter, process_time

from tests.bench_report.figure import Figure, Timed


def timed(figure: Figure, size: int) -> Timed:
    """The figure at one size. At the smallest each way is gone once before it counts."""
    work = figure.prepare(size)
    if figure.tells_itself:
        alone, told = figure.bare(work), figure.ours(work)
        assert isinstance(alone, float)
        assert isinstance(told, float)
        return Timed(size, told, alone, more=figure.more(work))
    largest = size == figure.sizes[-1]
    memory = most_mb(lambda: figure.ours(work)) if figure.most_mb is not None and largest else None
    if size == figure.sizes[0] and not figure.warmed:
        figure.bare(work)
        figure.ours(work)
    clock = process_time if figure.by_processor else perf_counter
    bare, ours = [], []
    for _ in range(figure.runs):
        bare.append(_took(lambda: figure.bare(work), clock))
        ours.append(_took(lambda: figure.ours(work), clock))
    return Timed(size, median(ours), median(bare), memory, figure.more(work))


def _took(do: Callable[[], object], clock: Callable[[], float]) -> float:
    gc.collect()
    began = clock()
    do()
    return clock() - began


def most_mb(do: Callable[[], object]) -> int:
    """The most memory of a process that does it, all that it held before counted in."""
    _let_go()
    child = os.fork()
    if child == 0:
        _do_and_leave(do)
    _, status, used = os.wait4(child, 0)
    if status:
        raise RuntimeError("the process whose memory was looked at has failed")
    return used.ru_maxrss // 1024  # Linux counts in KiB.


def _let_go() -> None:
    """A connection is not shared with a child."""
    if "django.db" in sys.modules:
        from tests.bench_report.databases import leave

        leave()


def _do_and_leave(do: Callable[[], object]) -> None:
    try:
        do()
    except BaseException:
        traceback.print_exc()
        os._exit(1)
    os._exit(0)
