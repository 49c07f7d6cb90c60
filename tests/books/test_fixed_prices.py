"""Hours on what a fixed price holds are not proposed as a line of their own."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.actions.books.extra_work import About
from quotes.actions.books.worked_hours import enter_hours
from quotes.models import Acceptance
from quotes.queries.books.build import build_account
from tests.bench.parts_cast import real_build
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import builder
from tests.shipped import load_shipped

MEASURED = "guide_measure"
"""Work that exhaust valves bring, and that the refresh does not hold."""


def proposed(build: Acceptance, operation: str) -> list[str]:
    """Lines that two hours on an operation bring."""
    enter_hours(
        build=build,
        operation=operation,
        person=builder(),
        on=NOW.date(),
        hours=Decimal(2),
        by=builder(),
        now=NOW,
    )
    account = build_account(build, NOW.date(), "clocked")
    return [line.key for line in account.to_invoice if line.key.startswith("clock:")]


@pytest.fixture(autouse=True)
def shop(db: None) -> None:
    load_shipped()


def test_hours_on_work_that_nobody_priced_bring_a_line() -> None:
    assert proposed(real_build(), MEASURED) == [f"clock:{MEASURED}"]


def test_hours_on_the_work_of_a_ticked_extra_bring_none() -> None:
    assert proposed(real_build(extras=("valve_exhaust",)), MEASURED) == []


def test_hours_on_extra_work_whose_hours_were_agreed_bring_none() -> None:
    build = real_build()
    cast.extra_work(build, about=About(components=("valve_exhaust",)))

    assert proposed(build, MEASURED) == []
