"""Measured condition moves the age of a component between standard and limit, weighed with the clock."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.ask.request import Reading, Request
from quotes.calc.life.clock import Used, used_shares
from quotes.calc.scope.case import make_case
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped

LENGTHS = st.decimals("36", "40", places=2)
WITHIN = st.decimals("38", "39", places=2)
MILES = st.integers(0, 9000)


def length(value: Decimal | str, place: str = "") -> Reading:
    """The free length of a valve spring: 39 mm as new, 38 mm at its limit."""
    return Reading(
        component="valve_spring",
        quantity="free length",
        value=Decimal(value),
        unit="mm",
        standard=Decimal("39.0"),
        limit=Decimal("38.0"),
        bad_when="below",
        place=place,
    )


def springs(miles: int | None, readings: Sequence[Reading] = ()) -> Used:
    """The springs of a four that ran so many sprint miles; None: nobody knows."""
    return used_shares(request(miles, readings), shipped("four600"))["valve_spring"]


def request(miles: int | None, readings: Sequence[Reading] = ()) -> Request:
    if miles is None:
        return asked(engine={"history": None}, readings=tuple(readings))
    return asked("four600", ran(miles), readings=tuple(readings))


@given(miles=MILES, value=LENGTHS)
def test_the_age_lies_between_the_clock_and_the_reading(miles: int, value: Decimal) -> None:
    clock, used = springs(miles).share, springs(miles, [length(value)])
    assert used.measured_share is not None
    low, high = sorted((clock, used.measured_share))
    assert low - 1e-12 <= used.share <= high + 1e-12
    assert used.share >= 0


@given(miles=st.none() | MILES, values=st.tuples(LENGTHS, LENGTHS))
def test_a_worse_reading_never_makes_it_younger(miles: int | None, values: tuple[Decimal, Decimal]) -> None:
    shorter, longer = sorted(values)
    assert springs(miles, [length(shorter)]).share >= springs(miles, [length(longer)]).share


@given(readings=st.lists(LENGTHS, min_size=1, max_size=4), miles=st.none() | MILES)
def test_of_several_readings_the_worst_counts(readings: list[Decimal], miles: int | None) -> None:
    every = springs(miles, [length(value, f"valve {n}") for n, value in enumerate(readings, 1)])
    assert every == springs(miles, [length(min(readings))])


@given(value=WITHIN, miles=MILES)
def test_within_its_limit_a_reading_counts_as_much_as_the_clock(value: Decimal, miles: int) -> None:
    gone = float(Decimal("39.0") - value)
    clock = springs(miles).share
    assert springs(miles, [length(value)]).share == pytest.approx((clock + gone) / 2, abs=1e-12)


def test_a_reading_alone_counts_where_nobody_knows_the_age() -> None:
    assert springs(None) == Used(0.5, known=False)
    assert springs(None, [length("38.7")]).share == pytest.approx(0.3)


def test_past_its_limit_a_young_part_is_used_up_all_the_same() -> None:
    assert springs(450).share == pytest.approx(0.1)
    assert springs(450, [length("37.8")]).share == pytest.approx(1.2)


def test_a_part_that_measures_well_makes_the_engine_surer_and_one_that_measures_badly_less_so() -> None:
    """The same engine, judged with its springs left in."""

    def hazard(*readings: Reading) -> float:
        case = make_case(request(2250, readings), shipped("four600"), SHOP, "refresh")
        return case.levels["valve_spring"].left.stopping_hazard(case.use)

    assert hazard(length("38.9")) < hazard() < hazard(length("38.1"))
