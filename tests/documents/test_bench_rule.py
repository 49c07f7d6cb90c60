"""The bench rule: hours of a week drawn to measure."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from xml.etree import ElementTree

from quotes.calc.dates.slots import Week
from quotes.documents.bench_rule import EDGE, WIDTH, bench_rule, rule_length

MONDAY = date(2027, 1, 4)
SVG = "{http://www.w3.org/2000/svg}"


def drawn(there_is: str, promised: str, length: int = 40) -> ElementTree.Element:
    return ElementTree.fromstring(bench_rule(Week(MONDAY, Decimal(there_is), Decimal(promised)), length))


def bars(root: ElementTree.Element) -> list[float]:
    return [float(bar.attrib["width"]) for bar in root.iter(f"{SVG}rect")]


def stop(root: ElementTree.Element) -> float:
    return next(
        float(line.attrib["x1"]) for line in root.iter(f"{SVG}line") if line.attrib["stroke-width"] == "2.5"
    )


def test_the_solid_bar_is_as_long_as_what_is_promised() -> None:
    assert bars(drawn("40", "10")) == [(WIDTH - 2 * EDGE) / 4]


def test_the_stop_stands_at_what_there_is() -> None:
    assert stop(drawn("20", "0")) == WIDTH / 2


def test_nothing_promised_draws_no_bar() -> None:
    assert bars(drawn("32.5", "0")) == []


def test_the_numbers_are_spoken_too() -> None:
    root = drawn("32.5", "26.25")
    assert root.findtext(f"{SVG}title") == "Week of 4 January 2027"
    assert root.findtext(f"{SVG}desc") == "26.3 hours promised of 32.5"


def test_every_hour_has_its_tick_and_a_long_rule_stays_countable() -> None:
    assert len(list(drawn("40", "0").iter(f"{SVG}line"))) == 41 + 3
    assert len(list(drawn("1000", "0", 1000).iter(f"{SVG}line"))) == 101 + 3


def test_the_rule_holds_the_fullest_week_in_whole_tens() -> None:
    weeks = [Week(MONDAY, Decimal(hours)) for hours in ("0", "32.5", "26")]
    assert rule_length(weeks) == 40
    assert rule_length([Week(MONDAY, Decimal(0))]) == 10


def test_the_drawing_has_attributes_only_and_repeats_to_the_byte() -> None:
    week = Week(MONDAY, Decimal("32.5"), Decimal(10))
    assert bench_rule(week, 40) == bench_rule(week, 40)
    assert not re.search(r"style=|class=|<script|<style", bench_rule(week, 40))
