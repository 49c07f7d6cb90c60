"""`python -m tests.bench_report [--only search,workbook] [--write]`: every figure beside the bare library.

Ends with 1 where a goal is missed. `out/bench.json` holds the same as the text; --write puts the text into
DEVELOPERS.md. Figures that need no database are measured once, the others on SQLite and on a throw-away
PostgreSQL, each in a process of its own.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from time import monotonic

from tests.bench_report.figure import Figure, Result

ROUND = "QUOTES_BENCH_ROUND"
"""Says to a child what it measures on."""


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.bench_report", description=__doc__)
    parser.add_argument("--only", default="", help="names of figures, or how they begin, with commas between")
    parser.add_argument(
        "--quick", action="store_true", help="the smallest size of each, to see that it works"
    )
    parser.add_argument("--write", action="store_true", help="write the text into DEVELOPERS.md")
    given = parser.parse_args()
    from tests.bench_report import databases

    databases.settle()
    from tests.bench_report.figures import FIGURES

    wanted = [one for one in given.only.split(",") if one]
    figures = {one.name: one for one in FIGURES if not wanted or one.name.startswith(tuple(wanted))}
    if given.quick:
        figures = {name: replace(one, sizes=one.sizes[:1]) for name, one in figures.items()}
    if not figures:
        parser.error(
            f"there is no figure {given.only!r}; there are: {', '.join(one.name for one in FIGURES)}"
        )
    if round_of := os.environ.get(ROUND):
        return _measure(list(figures.values()), round_of)
    return _report(figures, given)


def _measure(figures: list[Figure], round_of: str) -> int:
    """A child's part: what it has found goes to standard output."""
    from quotes.management.stray_output import stray_output_to_stderr
    from tests.bench_report.run import as_plain, measured

    with stray_output_to_stderr():
        found = measured(figures, on_database=round_of != "nothing")
    print(as_plain(found))
    return 0


def _report(known: Mapping[str, Figure], given: argparse.Namespace) -> int:
    from django.utils import timezone

    from tests.bench_report import report
    from tests.bench_report.run import from_plain

    began, results = monotonic(), list[Result]()
    for round_of in ("nothing", "sqlite", "postgresql"):
        names = [one.name for one in known.values() if (one.needs == "nothing") == (round_of == "nothing")]
        if names:
            results += from_plain(_child(round_of, names, quick=given.quick))
    took, on = monotonic() - began, timezone.localdate()
    text = report.as_text(known, results, on, took)
    print(text)
    report.keep_json(report.as_json(known, results, on, took))
    if given.write:
        report.keep_text(text)
    return int(any(one.missed(known[one.figure]) for one in results))


def _child(round_of: str, names: list[str], *, quick: bool) -> str:
    command = [sys.executable, "-m", "tests.bench_report", "--only", ",".join(names)]
    command += ["--quick"] if quick else []
    place = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    if round_of == "postgresql":
        command = [".ci/postgres", *command]
    done = subprocess.run(
        command, env=place | {ROUND: round_of}, stdout=subprocess.PIPE, check=True, text=True
    )
    # The throw-away cluster says on the same way out that it goes.
    return next(line for line in reversed(done.stdout.splitlines()) if line.startswith("["))


if __name__ == "__main__":
    sys.exit(main())
