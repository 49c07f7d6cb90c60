"""What the trade knows of such engines comes out of the shipped catalogue: common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.ask.request import Observed, Reading, Request
from quotes.calc.bench.parts.picking import AgreedWork, pick_list
from quotes.calc.compare import compare
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Comparison, Option
from tests.calc.asked import asked, ran, tired_four
from tests.calc.small import SHOP
from tests.cast import shipped

LONG_LIVED = 12_000
"""Miles: castings, shafts, gears and all else that lives longer is no wear part."""


def worked(request: Request) -> Comparison:
    return compare(request, shipped(request.engine.type), SHOP)


def refreshed(request: Request) -> Option:
    return worked(request.model_copy(update={"tiers": ("refresh",)})).option("refresh")


def rebuilt(miles: int) -> Request:
    """A 600 four that has run so far and starts with every wear part new, for 4,000 endurance miles."""
    components = shipped("four600").components.values()
    worn = [each.code for each in components if each.lives["miles"].typical <= LONG_LIVED]
    renewed = {code: {"at": miles, "unit": "mi"} for code in worn}
    past = ran(miles, duty="endurance")
    return asked("four600", past, amount=4000, engine={"renewed": renewed}, tiers=("refresh",))


@pytest.mark.parametrize(
    "request_", [asked(amount=4000, tiers=("refresh",)), rebuilt(8000)], ids=["new", "rebuilt"]
)
def test_new_wear_parts_keep_eight_to_nine_in_ten_over_4000_endurance_miles(request_: Request) -> None:
    """Endurance engines rebuilt with new wear parts run another 3,000 to 5,000 miles."""
    left = worked(request_).leave_it
    assert 0.8 <= left.chance.value <= 0.9
    assert 2000 < left.good_for.amount < 5000


def test_what_falls_due_on_the_way_through_4000_endurance_miles_is_said() -> None:
    option = worked(rebuilt(8000)).option("refresh")
    assert option.first_due is not None
    assert option.openings
    assert all(opening.sentence and 0 < opening.amount < 4000 for opening in option.openings)


def after_cycles(engine_type: str, cycles: int) -> Option:
    """So many endurance seasons of 2,000 miles on the same rods; their side clearance measures as new."""
    sound = Reading(
        component="con_rod",
        quantity="side clearance",
        value=Decimal("0.15"),
        unit="mm",
        standard=Decimal("0.15"),
        limit=Decimal("0.35"),
        bad_when="above",
    )
    return refreshed(asked(engine_type, ran(2000 * cycles, duty="endurance"), readings=(sound,)))


@pytest.mark.parametrize(("engine_type", "cycles"), [("four600", 1), ("twin650", 1), ("twin650", 2)])
def test_rods_that_measure_well_serve_another_build_cycle_and_their_bolts_none(
    engine_type: str, cycles: int
) -> None:
    option = after_cycles(engine_type, cycles)
    assert "con_rod" in option.left
    assert "rod_bolt" in option.renewed


@pytest.mark.parametrize("engine_type", ["four600", "twin650"])
def test_after_four_cycles_new_rods_are_worth_it_and_still_no_must(engine_type: str) -> None:
    assert after_cycles(engine_type, 4).renewed["con_rod"].state == "worth it"


@pytest.mark.parametrize(
    ("engine_type", "season"),
    [("four600", {}), ("single450", {"amount": 10, "unit": "h", "duty": "motocross"})],
)
def test_a_gearbox_that_jumps_out_of_gear_brings_gears_forks_drum_and_the_oil_pump(
    engine_type: str, season: dict[str, Any]
) -> None:
    """On an engine that nothing else opens: gear, forks and selector new; drum and pump are looked at."""
    past = ran(2, "h", "motocross") if season else ran(300)
    jumps = (Observed(id="dogs_rounded", component="gear_3"),)
    option = refreshed(asked(engine_type, past, findings=jumps, **season))
    for code in ("gear_3", "gearbox_circlip", "shift_fork", "selector"):
        assert option.renewed[code].state == "must"
    assert {"gearbox_out", "gearbox_inspect", "oil_pump_out", "oil_pump_inspect"} <= set(option.operations)
    assert "cams_out" not in option.operations or engine_type == "single450"


def oil_line(option: Option) -> Line:
    return next(line for line in option.lines if line.code == "engine_oil")


@pytest.mark.parametrize("engine_type", ["single450", "twin650", "four600", "four1000"])
def test_no_gearbox_that_ships_runs_in_light_oil_of_grade_zero(engine_type: str) -> None:
    for duty in shipped(engine_type).duties.values():
        assert duty.oil
        assert duty.oil_why
        assert not duty.oil.startswith("0W")


def test_the_oil_of_a_use_stands_with_its_reason_on_quote_and_pick_list() -> None:
    option = refreshed(tired_four(amount=1800, duty="sprint"))
    line = oil_line(option)
    assert line.description == "engine oil, 10W-40"
    assert line.reason.endswith(
        "10W-40: gears and clutch run in it; light oil of grade 0 suits rods and mains, not gearboxes."
    )
    pick = next(p for p in pick_list(AgreedWork(option), shipped("four600")) if p.component == "engine_oil")
    assert (pick.description, pick.why_this_one) == (line.description, line.reason)


def test_a_use_that_nobody_has_said_an_oil_for_names_none() -> None:
    catalogue = shipped("four600")
    silent = replace(catalogue.duties["sprint"], oil="", oil_why="")
    unsaid = replace(catalogue, duties={**catalogue.duties, "sprint": silent})
    request = tired_four(amount=1800, duty="sprint", tiers=("refresh",))
    line = oil_line(compare(request, unsaid, SHOP).option("refresh"))
    assert line.description == "engine oil"
    assert "10W" not in line.reason
