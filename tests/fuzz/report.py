"""What a run comes to, as the table in DEVELOPERS.md."""

from __future__ import annotations

import os
import platform
from collections import Counter
from datetime import date
from pathlib import Path

from django.db import connection

from tests.fuzz.asking import Found
from tests.fuzz.site import Site

FILE = Path(__file__).resolve().parent.parent.parent / "DEVELOPERS.md"
NAMES = {"sqlite": "SQLite", "postgresql": "PostgreSQL"}


def report(found: Found, site: Site, *, seed: int, on: date, seconds: float) -> str:
    """A line on the run and a row for each kind of input."""
    total, errors, halves = sum(found.inputs.values()), len(found.errors), len(found.half_writes)
    rows = ["| kind | inputs | answered | refused | errors |", "|---|---|---|---|---|"]
    for kind, count in sorted(found.inputs.items()):
        answers = Counter({status: many for (of, status), many in found.answers.items() if of == kind})
        good = sum(many for status, many in answers.items() if status < 400 and status != 2)
        wrong = sum(many for status, many in answers.items() if status >= 500)
        rows.append(f"| {kind} | {count:,} | {good:,} | {answers.total() - good - wrong:,} | {wrong} |")
    vendor = NAMES[connection.vendor]
    machine = f"{os.cpu_count()} cores, Python {platform.python_version()}"
    head = (
        f"{vendor}, {on.day} {on:%B %Y}, seed {seed}, {machine}, {seconds / 60:.0f} minutes: "
        f"**{total:,} inputs** over {len(site.addresses)} addresses and "
        f"{sum(map(len, site.forms.values())):,} forms; errors: **{errors}**, half writes: **{halves}**."
    )
    return "\n".join([head, "", *rows])


def keep_report(text: str, vendor: str) -> None:
    """Writes it between its marks."""
    begin, end = (
        f"<!-- bad input on {vendor}: written by make fuzz -->",
        f"<!-- end of bad input on {vendor} -->",
    )
    whole = FILE.read_text(encoding="utf-8")
    before, rest = whole.split(begin)
    _, after = rest.split(end)
    FILE.write_text(f"{before}{begin}\n{text}\n{end}{after}", encoding="utf-8")
