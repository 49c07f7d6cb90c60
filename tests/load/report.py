"""What a run comes to, as the table in DEVELOPERS.md."""

from __future__ import annotations

import os
import platform
from pathlib import Path

from django.db import connection
from django.utils import timezone

from tests.load.day import PAUSE_S, Day
from tests.load.measured import ALL

FILE = Path(__file__).resolve().parent.parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- load: written by make load -->", "<!-- end of load -->"
NAMES = {"sqlite": "SQLite", "postgresql": "PostgreSQL"}
MOMENTS = (1, 5, 10)
"""Minutes at which the workers' memory is told."""


def report(day: Day, *, users: int, minutes: float, used: float) -> str:
    """A line on the run, a row for each page, a line on memory."""
    found, on = day.measured, timezone.localdate()
    low, high = PAUSE_S
    machine = f"{os.cpu_count()} cores, Python {platform.python_version()}"
    count, late = len(found.every), found.part(ALL, 0.95)
    head = (
        f"{NAMES[connection.vendor]}, {on.day} {on:%B %Y}, {machine}, 2 workers of 4 threads. {users} people "
        f"signed in for {minutes:g} minutes, {low:g} to {high:g} s between what one does: {count:,} "
        f"requests, errors: **{found.wrong}**, p95 **{late:.2f} s**. The people themselves took "
        f"{used:.0f} s of a processor on the same machine."
    )
    rows = ["| page | requests | errors | p50, ms | p95, ms | p99, ms |", "|---|---|---|---|---|---|"]
    pages = sorted(found.seconds, key=lambda page: -len(found.seconds[page]))
    rows += [_row(day, page, len(found.seconds[page])) for page in pages]
    rows.append(_row(day, ALL, len(found.every)))
    return "\n".join([head, "", *rows, "", _memory(day, minutes)])


def _row(day: Day, page: str, count: int) -> str:
    parts = " | ".join(f"{day.measured.part(page, share) * 1000:.0f}" for share in (0.5, 0.95, 0.99))
    wrong = day.measured.wrong if page == ALL else len(day.measured.errors.get(page, ()))
    return f"| {page} | {count:,} | {wrong} | {parts} |"


def _memory(day: Day, minutes: float) -> str:
    told = []
    for minute in sorted({min(moment, minutes) for moment in MOMENTS}):
        _, held = min(day.memory, key=lambda one: abs(one[0] - minute * 60))
        told.append(f"minute {minute:g}: {' and '.join(f'{one} MB' for one in held)}")
    return f"Memory of the workers, {'; '.join(told)}."


def keep_report(text: str) -> None:
    """Writes it between its marks."""
    before, rest = FILE.read_text(encoding="utf-8").split(BEGIN)
    _, after = rest.split(END)
    FILE.write_text(f"{before}{BEGIN}\n{text}\n{END}{after}", encoding="utf-8")
