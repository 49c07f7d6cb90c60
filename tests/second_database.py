"""Which tests PostgreSQL need not see again: whatever they put to a database, another test puts to it too.

A statement is what its text says with its values left out, whether something that it was asked for is empty,
what fault came of it, and whether nothing, one row or several came. `make second-database` runs all tests
that are for both databases, writes down what each puts to PostgreSQL, and looks for the fewest seconds of
tests in which every statement comes still. What is not among them stands in `shown_by_others.txt`. A new test
is not, so it runs on both; nor is one that commits, because what it shows lies between its statements.
"""

from __future__ import annotations

import re
import sys
import time
from collections.abc import Collection, Generator, Mapping
from pathlib import Path
from typing import Any

import pytest

LIST = Path(__file__).with_name("shown_by_others.txt")
HEAD = "# Written by `make second-database`: tests whose every statement another test puts to PostgreSQL.\n"
LEFT_AS_IT_IS = "--second-database-whole"
SEVERAL_PLACES = re.compile(r"(?:%s, ?)*%s")
SEVERAL_ROWS = re.compile(r"(?:\(%s\), ?)+\(%s\)")
FIGURE = re.compile(r"\b\d+\b")
SAVEPOINT = re.compile(r'"s\d+_x\d+"')
LEAST_SECONDS = 0.01
"""Even a test of no time at all costs its beginning and its end."""

Statement = tuple[str, str, bool, int]


def shown_by_others() -> frozenset[str]:
    """By file and function, whatever its cases."""
    lines = LIST.read_text().splitlines() if LIST.exists() else []
    return frozenset(line for line in lines if line and not line.startswith("#"))


def function(nodeid: str) -> str:
    return nodeid.partition("[")[0]


def needed(
    shown: Mapping[str, Collection[Statement]], seconds: Mapping[str, float], always: Collection[str]
) -> set[str]:
    """Tests in which every statement comes, with those of `always`: the most new ones a second first."""
    kept = {name for name in shown if name in always}
    left = {one for of_one in shown.values() for one in of_one}
    left -= {one for name in kept for one in shown[name]}
    while left:
        rest = sorted(name for name in shown if name not in kept)
        best = max(rest, key=lambda name: len(left.intersection(shown[name])) / _cost(seconds, name))
        kept.add(best)
        left -= set(shown[best])
    return kept


def _cost(seconds: Mapping[str, float], name: str) -> float:
    return seconds.get(name, 0) + LEAST_SECONDS


class Recorder:
    """A plugin of pytest that hears what each test puts to the database."""

    def __init__(self) -> None:
        self.shown: dict[str, set[Statement]] = {}
        self.seconds: dict[str, float] = {}
        self.always: set[str] = set()
        self._known: dict[str, str] = {}
        self._now = ""

    def pytest_sessionstart(self) -> None:
        from django.db.backends import utils

        plain = utils.CursorWrapper._execute  # type: ignore[attr-defined]

        def execute(cursor: Any, sql: Any, params: Any, *more: Any) -> Any:
            text, fault = self._plain(str(sql)), ""
            try:
                return plain(cursor, sql, params, *more)
            except BaseException as raised:
                fault = type(raised).__name__
                raise
            finally:
                empty = text.startswith("SELECT") and None in (params or ())
                rows = 0 if fault else min(cursor.cursor.rowcount, 2)
                self.shown.setdefault(self._now, set()).add((text, fault, empty, rows))

        utils.CursorWrapper._execute = execute  # type: ignore[attr-defined]

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, Any, Any]:
        self._now = function(item.nodeid)
        self.shown.setdefault(self._now, set())
        marker = item.get_closest_marker("django_db")
        commits = {"transactional_db", "live_server"}.intersection(getattr(item, "fixturenames", ()))
        if commits or (marker and marker.kwargs.get("transaction")):
            self.always.add(self._now)
        if item.get_closest_marker("both_databases"):
            self.always.add(self._now)
        began = time.process_time()
        done = yield
        self.seconds[self._now] = self.seconds.get(self._now, 0) + time.process_time() - began
        return done

    def _plain(self, sql: str) -> str:
        if sql not in self._known:
            text = SAVEPOINT.sub('"s"', SEVERAL_PLACES.sub("%s", sql))
            self._known[sql] = FIGURE.sub("0", SEVERAL_ROWS.sub("(%s)", text))
        return self._known[sql]


def main() -> int:
    """Runs the tests and writes the list. Where one fails, what it shows is not known, and nothing is."""
    recorder = Recorder()
    elsewhere = [f"--ignore=tests/{folder}" for folder in ("calc", "outside", "documents", "browser")]
    asked = ["-q", "-p", "no:cacheprovider", "--second-database", LEFT_AS_IT_IS, *elsewhere, *sys.argv[1:]]
    if failed := pytest.main(asked, plugins=[recorder]):
        return int(failed)
    kept = needed(recorder.shown, recorder.seconds, recorder.always)
    others = sorted(recorder.shown.keys() - kept)
    LIST.write_text(HEAD + "".join(f"{name}\n" for name in others))
    saved = sum(recorder.seconds.get(name, 0) for name in others)
    print(f"{len(others)} of {len(recorder.shown)} tests are left out: {saved:.0f} s of a processor.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
