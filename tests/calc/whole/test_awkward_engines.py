"""Engines and histories that a simpler tool falls over."""

from __future__ import annotations

import pytest

from quotes.calc.ask.faults import request_faults
from quotes.calc.ask.request import Segment
from quotes.calc.life.clock import used_shares
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.calc.trade_list import job_closure
from tests.cast import shipped


def job_of(engine_type: str, component: str) -> frozenset[str]:
    """Everything that renewing one component takes."""
    engine = shipped(engine_type)
    known = engine.components[component]
    return frozenset(
        job_closure(engine, (*known.access_operations, *known.with_operations), delivered="loose")
    )


@pytest.mark.parametrize("engine_type", ["four600", "four1000"])
def test_just_rings_is_a_bottom_end_job_where_the_cylinders_are_cast_in_the_case(engine_type: str) -> None:
    assert {"cases_split", "rods_off", "pistons_out"} <= job_of(engine_type, "rings")


@pytest.mark.parametrize("engine_type", ["single450", "twin650"])
def test_rings_leave_the_cases_shut_where_the_cylinders_come_off(engine_type: str) -> None:
    assert "pistons_out" in job_of(engine_type, "rings")
    assert "cases_split" not in job_of(engine_type, "rings")


def test_a_pressed_crank_has_no_rod_bolts_and_no_shells_to_gauge() -> None:
    single = shipped("single450")
    assert not {"rod_bolt", "rod_bearing"} & set(single.components)
    assert not {"rods_off", "plastic_gauge_rods", "plastic_gauge_mains"} & set(single.operations)


def test_its_rod_comes_as_a_kit_and_the_crank_is_sent_out_to_be_trued() -> None:
    rod = shipped("single450").components["con_rod"]
    assert rod.machine_work == ("crank_rebuild",)
    assert "crank_out" in job_of("single450", "con_rod")


def share(component: str, *history: Segment, renewed: dict[str, str] | None = None) -> float:
    """The share of its life that a part of the 600 four has used; `renewed` says when it was new."""
    told = {component: renewed} if renewed else {}
    request = asked("four600", *history, engine={"renewed": told})
    assert request_faults(request, shipped("four600"), SHOP) == ()
    return used_shares(request, shipped("four600"))[component].share


def test_springs_by_hours_in_an_engine_that_ran_hours_and_then_miles() -> None:
    """Renewed half way through 19 sprint hours; hours run at the pace of the duty's own events."""
    sprint = shipped("four600").duties["sprint"]
    pace = (sprint.event_miles or 0) / sprint.event_hours

    found = share("valve_spring", ran(19, "h"), ran(600), renewed={"at": "9.5", "unit": "h"})
    assert found == pytest.approx(share("valve_spring", ran(9.5 * pace), ran(600)))


def test_a_clutch_by_runs_in_a_drag_engine() -> None:
    """Renewed after 40 of 55 runs: 15 are left, at the length of the duty's own season."""
    drag = shipped("four600").duties["drag"]
    mile_a_run = (drag.season_miles or 0) / (drag.season_runs or 1)

    found = share("clutch_friction", ran(55, "runs", "drag"), renewed={"at": "40", "unit": "runs"})
    assert found == pytest.approx(share("clutch_friction", ran(15 * mile_a_run, "mi", "drag")))
