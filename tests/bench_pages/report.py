"""The report: a page a row, both databases across, and what is later than promised."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from tests.bench_pages.pages import HELD_AGAINST, LISTS, MOST_TIMES, PROMISED_MS, Timed
from tests.bench_report.report import FILE, NAMES, machine

BEGIN, END = "<!-- pages: written by make pages -->", "<!-- end of pages -->"


def as_text(timed: Sequence[Timed], on: date, took: float) -> str:
    """A line on the run, the table, and the faults."""
    shares = sorted({each.share for each in timed})
    databases = list(dict.fromkeys(each.database for each in timed))
    found = {(each.page, each.database, each.share): each for each in timed}
    heads = [
        "page",
        *(f"{NAMES[one]}, {share * 100:g} x" for one in databases for share in shares),
        "queries",
    ]
    lines = [
        f"{on.day} {on:%B %Y}, {machine()}; {took / 60:.0f} minutes. Milliseconds from request to answer, "
        "the middle one of several; 1 x is a thousand quotes, 100 x a hundred thousand with all that came "
        "of them.",
        "",
        f"| {' | '.join(heads)} |",
        "|---" * len(heads) + "|",
    ]
    for page in dict.fromkeys(each.page for each in timed):
        of_page = [found[page, one, share] for one in databases for share in shares]
        queries = ", ".join(dict.fromkeys(str(each.queries) for each in of_page))
        lines.append(f"| {' | '.join([page, *(f'{each.ms:.0f}' for each in of_page), queries])} |")
    return "\n".join([*lines, "", *(faults(timed) or ["Nothing is later than promised."])])


def faults(timed: Sequence[Timed]) -> list[str]:
    """Pages over their time, and lists that grow with the years."""
    found = [
        f"- {each.page}, {NAMES[each.database]}: {each.ms:.0f} ms, goal {PROMISED_MS}"
        for each in timed
        if each.late
    ]
    first = {(each.page, each.database): each for each in reversed(timed)}
    for each in timed:
        beside = HELD_AGAINST.get(each.page, each.page)
        times = each.ms / first[beside, each.database].ms
        if each.page in LISTS and times > MOST_TIMES:
            of = "its time" if beside == each.page else f"the time of {beside}"
            found.append(
                f"- {each.page}, {NAMES[each.database]}: {times:.1f} times {of} at 1 x, goal {MOST_TIMES}"
            )
    return found


def keep_text(text: str) -> None:
    """Writes it between its marks in DEVELOPERS.md."""
    before, rest = FILE.read_text(encoding="utf-8").split(BEGIN)
    _, after = rest.split(END)
    FILE.write_text(f"{before}{BEGIN}\n{text}\n{END}{after}", encoding="utf-8")
