"""The demo's year as its file tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from quotes.calc.demo.year import COURSES, Happening, Year, happenings
from quotes.imports.demo.file import read_year

DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo"


@pytest.fixture(scope="module")
def year() -> Year:
    return read_year(DEMO)


@pytest.fixture(scope="module")
def told(year: Year) -> list[Happening]:
    return list(happenings(year))


def test_a_year_holds_about_sixty_builds_of_every_course(year: Year) -> None:
    assert 55 <= len(year.builds) <= 70
    assert {build.course for build in year.builds} == set(COURSES)


def test_what_happened_is_told_in_the_order_of_its_days(told: list[Happening]) -> None:
    days = [each.days_ago for each in told]
    assert days == sorted(days, reverse=True)


def test_nothing_is_told_that_has_not_happened_yet(told: list[Happening]) -> None:
    assert min(each.days_ago for each in told) >= 0


def test_each_build_begins_with_its_call(told: list[Happening]) -> None:
    seen: set[str] = set()
    for each in told:
        assert (each.act == "call") == (each.build.engine not in seen), each
        seen.add(each.build.engine)


def test_who_pays_the_rest_is_a_customer_of_the_year(year: Year) -> None:
    known = {customer.name for customer in year.customers}
    shared = [build for build in year.builds if build.course == "two_payers"]
    assert shared
    assert all(build.second in known - {build.customer} for build in shared)


def test_services_are_told_of_builds_that_were_done_long_enough_ago(
    year: Year, told: list[Happening]
) -> None:
    done = {each.build.engine: each.days_ago for each in told if each.act == "done"}
    assert len(year.told) > 30
    assert all(one.days < done[one.engine] for one in year.told)
    assert {one.end for one in year.told} == {"ran", "stopped", "outside", "unknown"}
