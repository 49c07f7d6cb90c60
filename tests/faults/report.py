"""The report of the rounds, as a table in DEVELOPERS.md between two marks."""

from __future__ import annotations

import os
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

FILE = Path(__file__).resolve().parent.parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- faults: written by make faults -->", "<!-- end of faults -->"
HEADS = {"sqlite": "SQLite", "postgresql": "PostgreSQL"}
ROWS = (
    ("rounds", "rounds"),
    ("killed", "killed"),
    ("forms whose answer said kept", "told"),
    ("forms that went unanswered for good", "untold"),
    ("lost", "lost"),
    ("doubled", "doubled"),
    ("half kept", "halves"),
    ("looks by `verify`", "looks"),
    ("faults found by any look", "faults"),
    ("kept before the backup under load was taken, looked for where it was put back", "in_backup"),
    ("missing or unsound there", "faults_of_backup"),
    ("minutes", "minutes"),
)


def table(found: Mapping[str, Mapping[str, Any]], machine: str) -> str:
    """One column for each database."""
    names = list(found)
    heads = [HEADS.get(name, name) for name in names]
    rows = [f"| {machine} | {' | '.join(heads)} |", f"|---|{'---|' * len(names)}"]
    rows += [f"| {label} | {' | '.join(said(found[name][key]) for name in names)} |" for label, key in ROWS]
    return "\n".join(rows)


def said(value: Any) -> str:
    """A number, a count of faults, or what was killed how often."""
    if isinstance(value, dict):
        return ", ".join(f"{what} {times}" for what, times in sorted(value.items()))
    if isinstance(value, list):
        return str(len(value))
    return f"{value:,.0f}" if isinstance(value, float) else f"{value:,}"


def machine(seed: int) -> str:
    """When and on what."""
    return f"{time.strftime('%-d %B %Y')}, {os.cpu_count()} cores shared with other work, seed {seed}"


def with_report(text: str, report: str) -> str:
    """The text with the report between its marks."""
    before, rest = text.split(BEGIN)
    _, after = rest.split(END)
    return f"{before}{BEGIN}\n{report}\n{END}{after}"


def write(found: Mapping[str, Mapping[str, Any]], seed: int) -> None:
    text = FILE.read_text(encoding="utf-8")
    FILE.write_text(with_report(text, table(found, machine(seed))), encoding="utf-8")
