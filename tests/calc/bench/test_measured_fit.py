"""Parts that are sized by a measurement wait for it."""

from __future__ import annotations

import pytest

from quotes.calc.bench.parts.measured_fit import MEASURED_FIT, MeasuredFit, StandingReading, Waits, chosen_by
from tests.cast import shipped

RULES = pytest.mark.parametrize("rule", MEASURED_FIT, ids=lambda rule: rule.component)


def asked(
    component: str, *readings: StandingReading, work: frozenset[str] = frozenset()
) -> StandingReading | Waits | None:
    return chosen_by(component, readings, plain_bearings=True, machine_work=work)


def work_for(rule: MeasuredFit) -> frozenset[str]:
    return frozenset({"replate"}) if rule.bore_work_only else frozenset()


@RULES
def test_it_waits_until_one_of_its_readings_is_there(rule: MeasuredFit) -> None:
    waits = asked(rule.component, StandingReading("clutch_steel", "stripped"), work=work_for(rule))

    assert isinstance(waits, Waits)
    assert rule.reading in waits.sentence("The part")
    for component in rule.by:
        taken = StandingReading(component, "stripped", 7)
        assert asked(rule.component, taken, work=work_for(rule)) == taken


@RULES
def test_after_machine_work_only_a_reading_of_what_came_back_counts(rule: MeasuredFit) -> None:
    before, since = StandingReading(rule.by[0], "stripped", 1), StandingReading(rule.by[0], "machined", 2)

    for work in rule.machined_by:
        waits = asked(rule.component, before, work=frozenset({work}))
        assert isinstance(waits, Waits)
        assert "back from machine work" in waits.sentence("The part")
        assert asked(rule.component, before, since, work=frozenset({work})) == since


@pytest.mark.parametrize("component", ["piston", "rings", "valve_spring", "gear_4"])
def test_what_has_one_size_waits_for_nothing(component: str) -> None:
    assert asked(component) is None


def test_a_rolling_bearing_has_one_size() -> None:
    assert chosen_by("main_bearing", (), plain_bearings=False, machine_work=()) is None


@RULES
def test_the_table_names_what_the_catalogue_has(rule: MeasuredFit) -> None:
    catalogue = shipped("four600")

    assert {rule.component, *rule.by} <= catalogue.components.keys()
    assert rule.machined_by <= catalogue.machine_work.keys()
    assert rule.reason
