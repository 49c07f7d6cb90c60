"""What falls due next: by hand on round figures, and never later for an engine that has run more."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.ask.request import EngineAsked, Renewal, Segment, Unit
from quotes.calc.bench.ages.next_due import NextDue, bundle, next_due
from tests.cast import shipped

ON = date(2027, 3, 1)


def ran(amount: str, unit: Unit = "mi", duty: str = "sprint", kind: str = "four600") -> EngineAsked:
    return EngineAsked(type=kind, history=(Segment(amount=Decimal(amount), unit=unit, duty=duty),))


def due(engine: EngineAsked, component: str, duty: str = "sprint") -> NextDue:
    found = next_due(engine, duty, shipped(engine.type), on=ON)
    return next(one for one in found if one.component == component)


def test_at_the_reference_use_what_is_left_is_the_life_less_the_miles() -> None:
    """Sprint on the standard tune is the reference itself: 4,500 track miles for a set of valve springs."""
    spring = due(ran("1200"), "valve_spring")

    assert spring.amount == pytest.approx(3300)
    assert spring.used_pct == pytest.approx(100 * 1200 / 4500)


def test_the_day_assumes_the_usual_season_and_the_meeting_is_counted_from_there() -> None:
    """1,800 miles and nine meetings of 150 a season: 3,300 miles are 1.83 years, or 22 meetings."""
    spring = due(ran("1200"), "valve_spring")

    assert (spring.on - ON).days == int(3300 / 1800 * 365.25)
    assert spring.before_event == 23


def test_a_renewed_part_counts_from_its_renewal() -> None:
    engine = ran("4000").model_copy(
        update={"renewed": {"valve_spring": Renewal(at=Decimal(3000), unit="mi")}}
    )

    assert due(engine, "valve_spring").amount == pytest.approx(3500)


def test_what_is_past_its_life_is_due_now() -> None:
    spring = due(ran("9000"), "valve_spring")

    assert (spring.amount, spring.on, spring.before_event) == (0, ON, 1)


def test_of_an_unknown_history_nothing_is_said() -> None:
    assert next_due(EngineAsked(type="four600"), "sprint", shipped("four600"), on=ON) == ()


def test_kilometres_are_said_in_kilometres() -> None:
    miles = next_due(ran("1200"), "sprint", shipped("four600"), on=ON)
    km = next_due(ran("1200"), "sprint", shipped("four600"), on=ON, unit="km")

    assert [one.amount for one in km] == pytest.approx([one.amount * 1.609344 for one in miles])


def test_a_top_end_takes_along_what_is_soon_due_behind_the_same_way_in() -> None:
    renewed = {
        code: Renewal(at=Decimal(20), unit="h")
        for code in ("clutch_friction", "clutch_spring", "clutch_steel")
    }
    engine = ran("20", "h", "motocross", "single450").model_copy(update={"renewed": renewed})
    catalogue = shipped("single450")

    along = bundle(next_due(engine, "motocross", catalogue, on=ON), catalogue)

    assert [one.component for one in along][:2] == ["rings", "piston"]
    assert "clutch_friction" not in [one.component for one in along]


@pytest.mark.parametrize(
    ("kind", "duty", "unit"), [("single450", "motocross", "h"), ("four600", "sprint", "mi")]
)
@given(first=st.integers(0, 8000), more=st.integers(0, 8000))
def test_an_engine_that_ran_more_is_never_due_later(
    kind: str, duty: str, unit: Unit, first: int, more: int
) -> None:
    earlier = next_due(ran(str(first), unit, duty, kind), duty, shipped(kind), on=ON)
    later = {
        one.component: one
        for one in next_due(ran(str(first + more), unit, duty, kind), duty, shipped(kind), on=ON)
    }

    for one in earlier:
        assert later[one.component].amount <= one.amount + 1e-9
        assert later[one.component].used_pct >= one.used_pct - 1e-9
