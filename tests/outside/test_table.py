"""The table in DEVELOPERS.md is the one that the command writes."""

from __future__ import annotations

import re
from functools import cache

import pytest

from tests.outside.table import BEGIN, END, FILE, table, with_table

NUMBER = re.compile(r"(?<![\w.])-?\d+\.?\d*")
LAST_PLACE = 1.01


made_once = cache(table)


def written() -> str:
    """What stands between the marks of the file."""
    return FILE.read_text(encoding="utf-8").split(BEGIN)[1].split(END)[0].strip()


def test_the_table_in_the_file_is_what_the_command_makes() -> None:
    """The same words, and numbers that differ by one in their last place at most, for another processor."""
    there, made = written(), made_once()
    assert NUMBER.split(there) == NUMBER.split(made), "run make outside-checks"
    for said, ours in zip(NUMBER.findall(there), NUMBER.findall(made), strict=True):
        places = max(len(number.partition(".")[2]) for number in (said, ours))
        assert float(said) == pytest.approx(float(ours), abs=LAST_PLACE * 10.0**-places), (said, ours)


def test_writing_the_table_changes_nothing_around_it() -> None:
    text = f"before\n{BEGIN}\nold\n{END}\nafter\n"
    assert with_table(text) == f"before\n{BEGIN}\n{made_once()}\n{END}\nafter\n"
