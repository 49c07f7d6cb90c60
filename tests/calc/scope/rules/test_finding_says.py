"""Findings of the strip-down, and events that were told."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.ask.request import Observed
from quotes.calc.scope.rules.finding_says import find
from tests.calc.asked import asked, ran
from tests.calc.scope.rules.demands import demands, renewed
from tests.cast import shipped


def test_burnt_plates_bring_plates_springs_oil_and_filter() -> None:
    assert renewed(find, asked(findings=("plates_burnt",))) == {
        "clutch_friction",
        "clutch_steel",
        "clutch_spring",
        "engine_oil",
        "oil_filter",
    }


def test_rounded_dogs_on_fourth_renew_fourth_not_the_catalogues_example() -> None:
    found = demands(find, asked(findings=(Observed(id="dogs_rounded", component="gear_4"),)))
    assert ("new", "gear_4") in found
    assert ("new", "gear_2") not in found
    assert {("new", "shift_fork"), ("new", "selector"), ("work", "gearbox_out")} <= set(found)
    assert found["new", "gear_4"].startswith("gear pair 4")


@pytest.mark.parametrize(
    ("pct_over", "springs", "bolts", "shells"),
    [(3, False, False, False), (7, True, True, False), (None, True, True, False), (12, True, True, True)],
)
def test_an_over_rev_asks_for_more_the_further_it_went(
    pct_over: int | None, springs: bool, bolts: bool, shells: bool
) -> None:
    """Over-rev grades: common practice, no source; thresholds from memory."""
    over = None if pct_over is None else Decimal(pct_over)
    found = renewed(find, asked(events=(Observed(id="over_rev", pct_over=over),)))
    assert [c in found for c in ("valve_spring", "rod_bolt", "rod_bearing")] == [springs, bolts, shells]


def test_a_part_renewed_since_the_event_is_left_in_peace() -> None:
    engine = {"renewed": {"valve_spring": {"at": "3950", "unit": "mi"}}}
    event = Observed(id="over_rev", pct_over=Decimal(7), at=Decimal(3900))
    found = renewed(find, asked("four600", ran(4100), engine=engine, events=(event,)))
    assert "valve_spring" not in found
    assert "rod_bolt" in found


def test_a_bore_that_is_sent_to_be_plated_counts_as_brought_back() -> None:
    found = demands(find, asked(findings=("bore_worn",)))
    assert ("done", "bore") in found
    assert ("out", "replate") in found


@pytest.mark.parametrize("engine_type", ["single450", "twin650", "four600", "four1000"])
def test_every_finding_and_event_demands_only_what_the_engine_has(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    known = {("new", c) for c in catalogue.components} | {("done", c) for c in catalogue.components}
    known |= {("work", o) for o in catalogue.operations} | {("out", m) for m in catalogue.machine_work}
    for code, finding in catalogue.findings.items():
        place = next((c for c in finding.any_of if c in catalogue.components), None)
        seen = Observed(id=code, component=place)
        more: dict[str, Any] = {"events": (seen,)} if finding.is_event else {"findings": (seen,)}
        duty: dict[str, Any] = (
            {"duty": "motocross", "unit": "h", "amount": 10} if engine_type == "single450" else {}
        )
        found = demands(find, asked(engine_type, **duty, **more))
        assert set(found) <= known, code
