"""Unknown history."""

from __future__ import annotations

from quotes.calc.scope.rules.unknown_history import find
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import renewed

UNKNOWN = {"history": None}


def test_what_is_judged_by_life_counts_as_used_up() -> None:
    assert {"valve_spring", "rod_bolt", "rod_bearing", "cam_chain"} <= renewed(find, asked(engine=UNKNOWN))


def test_what_is_measured_is_looked_at_first() -> None:
    assert "valve_intake" not in renewed(find, asked(engine=UNKNOWN))


def test_a_known_history_demands_nothing() -> None:
    assert renewed(find, asked()) == set()
