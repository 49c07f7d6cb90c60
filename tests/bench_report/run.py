"""Measures figures on the database at hand, or those that need none, and prints their results as JSON."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import asdict
from typing import Any

from tests.bench_report import databases
from tests.bench_report.figure import Extra, Figure, Result, Timed
from tests.bench_report.measure import timed


def measured(figures: Sequence[Figure], *, on_database: bool) -> list[Result]:
    """Each figure at each of its sizes; those that need the same database one after another."""
    from django.db import connection

    name = connection.vendor if on_database else ""
    found: dict[str, list[Timed]] = {figure.name: [] for figure in figures}
    if on_database:
        databases.make_first()
    for place, of_place in _places(figures):
        with place:
            for figure, size in of_place:
                print(f"{name or 'no database'}: {figure.what}, {size:,} {figure.unit}", file=sys.stderr)
                found[figure.name].append(timed(figure, size))
    return [Result(figure.name, name, tuple(found[figure.name])) for figure in figures]


Asked = list[tuple[Figure, int]]


def _places(figures: Sequence[Figure]) -> Iterable[tuple[AbstractContextManager[None], Asked]]:
    for needs, place in (("nothing", nullcontext), ("catalogue", databases.with_catalogue)):
        of_place = [(one, size) for one in figures if one.needs == needs for size in one.sizes]
        if of_place:
            yield place(), of_place
    for size in sorted({size for one in figures if one.needs == "years" for size in one.sizes}):
        of_size = [(one, size) for one in figures if one.needs == "years" and size in one.sizes]
        yield databases.with_years(size), of_size


def as_plain(results: Iterable[Result]) -> str:
    return json.dumps([asdict(result) for result in results])


def from_plain(text: str) -> list[Result]:
    return [
        Result(one["figure"], one["database"], tuple(_timed(each) for each in one["timed"]))
        for one in json.loads(text)
    ]


def _timed(plain: dict[str, Any]) -> Timed:
    return Timed(**{**plain, "more": tuple(Extra(**one) for one in plain["more"])})
