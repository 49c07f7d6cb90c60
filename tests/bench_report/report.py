"""The report: text for DEVELOPERS.md, JSON for whoever reckons on with it."""

from __future__ import annotations

import json
import os
import platform
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

from tests.bench_report.figure import Extra, Figure, Result, Timed

ROOT = Path(__file__).resolve().parent.parent.parent
FILE, JSON = ROOT / "DEVELOPERS.md", ROOT / "out" / "bench.json"
BEGIN, END = "<!-- bench: written by make bench -->", "<!-- end of bench -->"
NAMES = {"sqlite": "SQLite", "postgresql": "PostgreSQL", "": "none"}
HEADS = ("what", "database", "size", "ours", "bare", "ratio", "goal", "growth")


def machine() -> str:
    with open("/proc/meminfo", encoding="ascii") as told:
        memory = int(told.readline().split()[1]) / 1024**2
    return f"{os.cpu_count()} cores, {memory:.0f} GB, Python {platform.python_version()}"


def as_text(figures: Mapping[str, Figure], results: Sequence[Result], on: date, took: float) -> str:
    """A line on the run, and a row for each figure and database."""
    missed = [(result, said) for result in results for said in result.missed(figures[result.figure])]
    lines = [
        f"{on.day} {on:%B %Y}, {machine()}; {took / 60:.0f} minutes. Each time is the middle one of several, "
        "ours and the bare way in turn; growth is the power of the size that leads from the smallest size to "
        f"the largest. Goals missed: **{len(missed)}**.",
        "",
        f"| {' | '.join(HEADS)} |",
        f"|{'---|' * len(HEADS)}",
    ]
    lines += [_row(figures[result.figure], result) for result in results]
    lines += [
        "",
        *(f"- missed: {figures[one.figure].what}, {NAMES[one.database]}: {said}" for one, said in missed),
    ]
    told = {figures[result.figure].what: figures[result.figure].bare_is for result in results}
    lines += ["", "The bare way: " + "; ".join(f"{what}: {bare}" for what, bare in told.items()) + "."]
    return "\n".join(line for line in lines).replace("\n\n\n", "\n\n")


def _row(figure: Figure, result: Result) -> str:
    last = result.timed[-1]
    size = ", ".join(f"{one.size:,}" for one in result.timed)
    ours = f"{seconds(last.ours)}{''.join(_more(last))}"
    goal = "" if figure.goal is None else f"{figure.goal:g}"
    grows = "" if result.exponent is None else f"{result.exponent:.2f}"
    ratio = f"{last.ratio:.2f}"
    cells = (
        figure.what,
        NAMES[result.database],
        f"{size} {figure.unit}",
        ours,
        seconds(last.bare),
        ratio,
        goal,
    )
    return f"| {' | '.join((*cells, grows))} |"


def _more(timed: Timed) -> list[str]:
    told = [f", {timed.memory_mb} MB"] if timed.memory_mb is not None else []
    return told + [f"; {one.what} {_value(one)}" for one in timed.more]


def _value(one: Extra) -> str:
    value = seconds(one.value) if one.unit == "s" else f"{one.value:g} {one.unit}".strip()
    return value if one.goal is None else f"{value} (goal {one.goal:g})"


def seconds(value: float) -> str:
    """Seconds in the unit in which they read best."""
    if value >= 10:
        return f"{value:.0f} s"
    return f"{value:.2f} s" if value >= 1 else f"{value * 1000:.3g} ms"


def as_json(
    figures: Mapping[str, Figure], results: Sequence[Result], on: date, took: float
) -> dict[str, Any]:
    return {
        "on": on.isoformat(),
        "machine": machine(),
        "took_seconds": round(took),
        "figures": [
            {
                "figure": result.figure,
                "what": figures[result.figure].what,
                "bare": figures[result.figure].bare_is,
                "unit": figures[result.figure].unit,
                "database": result.database,
                "goal": figures[result.figure].goal,
                "goal_mb": figures[result.figure].most_mb,
                "exponent": result.exponent,
                "sizes": [{**asdict(one), "ratio": one.ratio} for one in result.timed],
                "missed": result.missed(figures[result.figure]),
            }
            for result in results
        ],
    }


def keep_json(told: Mapping[str, Any]) -> None:
    JSON.parent.mkdir(exist_ok=True)
    JSON.write_text(json.dumps(told, indent=2) + "\n", encoding="utf-8")


def keep_text(text: str) -> None:
    """Writes it between its marks in DEVELOPERS.md."""
    before, rest = FILE.read_text(encoding="utf-8").split(BEGIN)
    _, after = rest.split(END)
    FILE.write_text(f"{before}{BEGIN}\n{text}\n{END}{after}", encoding="utf-8")
