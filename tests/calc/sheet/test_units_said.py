"""In which unit an answer says its amounts: as asked, else in the workshop's own distances."""

from __future__ import annotations

from typing import Any

import pytest

from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from tests.calc.asked import asked, ran
from tests.calc.small import shop
from tests.cast import shipped


def in_kilometres(**planned: Any) -> Comparison:
    """A fresh 600 inline four, asked of a workshop that counts in kilometres."""
    request = asked("four600", ran(500), **{"amount": None, "unit": None, "duty": "track_day", **planned})
    return compare(request, shipped("four600"), shop(distance_unit="km"))


def test_a_season_that_nobody_gave_a_unit_is_said_in_the_workshops_own() -> None:
    found = in_kilometres()

    assert found.planned.unit == "km"
    assert found.planned.amount == pytest.approx(1050 * 1.609344)
    assert found.planned_in_words.startswith("1,690 km")
    assert found.leave_it.good_for.unit == "km"
    assert {option.cost_unit for option in found.options} == {"km"}


def test_a_unit_that_was_asked_stays() -> None:
    assert in_kilometres(amount=2000, unit="mi", duty="endurance").planned.unit == "mi"


def test_a_bare_amount_is_read_in_the_duty_s_own_unit_and_said_so() -> None:
    found = in_kilometres(amount=2000, duty="endurance").planned

    assert (found.amount, found.unit) == (2000, "mi")


def test_hours_stay_hours() -> None:
    request = asked("single450", ran(38, "h", "motocross"), amount=None, unit=None, duty="motocross")

    assert compare(request, shipped("single450"), shop(distance_unit="km")).planned.unit == "h"
