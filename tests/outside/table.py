"""Writes the table of outside checks into DEVELOPERS.md: `make outside-checks`.

Ours are shown to a tenth of their tolerance and no finer, so that every machine writes the same.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

from tests.outside.check import OutsideCheck
from tests.outside.registry import CHECKS

FILE = Path(__file__).resolve().parent.parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- outside checks: written by make outside-checks -->", "<!-- end of outside checks -->"


def table() -> str:
    """One row for each check, after the heading."""
    rows = ["| what | source | kind | expected | got | difference |", "|---|---|---|---|---|---|"]
    return "\n".join([*rows, *map(row, CHECKS)])


def row(check: OutsideCheck) -> str:
    numbers = list(zip(check.expected, check.got(), check.tolerance, strict=True))
    expected = ", ".join(f"{wanted:.10g}" for wanted, _, _ in numbers)
    got = ", ".join(said(found, within) for _, found, within in numbers)
    apart = ", ".join(said(found - wanted, within) for wanted, found, within in numbers)
    return f"| {check.what} | {check.source} | {check.kind} | {expected} | {got} | {apart} |"


def said(value: float, within: float) -> str:
    """The number to a tenth of its tolerance, or a little finer, without noughts at its end."""
    places = max(0, 1 + math.ceil(-math.log10(within)))
    shown = f"{round(value, places) + 0.0:.{places}f}"
    return (shown.rstrip("0").rstrip(".") or "0") if places else shown


def with_table(text: str) -> str:
    """The text with the table between its marks."""
    before, rest = text.split(BEGIN)
    _, after = rest.split(END)
    return f"{before}{BEGIN}\n{table()}\n{END}{after}"


def main() -> int:
    """Writes the file where the table has changed."""
    text = FILE.read_text(encoding="utf-8")
    FILE.write_text(with_table(text), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
