"""The report of `make bench`: growth, goals, and what stands in a row."""

from __future__ import annotations

from datetime import date

import pytest

from tests.bench_report.figure import Extra, Figure, Result, Timed
from tests.bench_report.report import as_json, as_text, seconds
from tests.bench_report.run import as_plain, from_plain

FIGURE = Figure(
    name="search",
    what="search",
    bare_is="a plain view",
    unit="rows",
    sizes=(100, 10_000),
    prepare=int,
    ours=str,
    bare=str,
    goal=1.3,
    most_mb=500,
)


def result(ours: float, memory: int = 90, errors: int = 0) -> Result:
    last = Timed(10_000, ours, 0.2, memory, (Extra("errors", errors, "", 0), Extra("p95", 0.5, "s")))
    return Result("search", "sqlite", (Timed(100, 0.01, 0.01), last))


@pytest.mark.parametrize(("last", "power"), [(0.01, 0.0), (0.1, 0.5), (1.0, 1.0), (100.0, 2.0)])
def test_growth_is_the_power_of_the_size(last: float, power: float) -> None:
    assert result(last).exponent == pytest.approx(power)


def test_one_size_has_no_growth() -> None:
    assert Result("search", "", (Timed(100, 0.01, 0.01),)).exponent is None


def test_a_goal_is_missed_by_ratio_by_memory_and_by_what_is_told_besides() -> None:
    assert result(0.26).missed(FIGURE) == []
    assert result(0.3, memory=600, errors=2).missed(FIGURE) == [
        "1.50 times the bare, goal 1.3",
        "600 MB, goal 500 MB",
        "errors 2, goal 0",
    ]


def test_a_row_says_sizes_times_ratio_goal_and_growth() -> None:
    text = as_text({"search": FIGURE}, [result(0.3)], date(2026, 11, 27), took=250)
    ours = "300 ms, 90 MB; errors 0 (goal 0); p95 500 ms"
    assert f"| search | SQLite | 100, 10,000 rows | {ours} | 200 ms | 1.50 | 1.3 | 0.74 |" in text
    assert "27 November 2026" in text
    assert "4 minutes" in text
    assert "Goals missed: **1**." in text
    told = as_json({"search": FIGURE}, [result(0.3)], date(2026, 11, 27), took=250)
    assert told["figures"][0]["sizes"][1]["ratio"] == pytest.approx(1.5)
    assert told["figures"][0]["missed"] == ["1.50 times the bare, goal 1.3"]


def test_a_result_comes_whole_from_the_process_that_measured_it() -> None:
    assert from_plain(as_plain([result(0.3)])) == [result(0.3)]


@pytest.mark.parametrize(
    ("value", "said"), [(0.00042, "0.42 ms"), (0.0412, "41.2 ms"), (1.234, "1.23 s"), (61.2, "61 s")]
)
def test_seconds_are_said_in_the_unit_that_reads_best(value: float, said: str) -> None:
    assert seconds(value) == said
