"""What a build's record asks for, worked out from its work."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Observed
from quotes.calc.bench.assembly.asks import BEFORE_IT_IS_OPENED, NOT_HERE, ONCE_IT_RUNS, asks_of, belongs
from quotes.calc.bench.assembly.order import assembly_order
from quotes.calc.bench.assembly.requirements import KnownLimits, Requirement, requirements_of
from quotes.calc.bench.assembly.work import BuildWork, work_of
from quotes.calc.bench.parts.picking import AgreedWork, pick_list
from quotes.calc.bench.teardown.sheet import ManualFigures
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import ExtraLines
from quotes.calc.scope.implications import build_graph
from quotes.calc.scope.must import must_list
from tests.bench.parts_cast import real_comparison
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import case_of
from tests.cast import shipped, shipped_rows

TYPES = ("single450", "twin650", "four600", "four1000")
LIMITS = {row.code: row for row in shipped_rows().limits}
FINDINGS = tuple(sorted(row.code for row in shipped_rows().findings))


def requirements(work: BuildWork, engine: str = "four600", **manual: ManualFigures) -> dict[str, Requirement]:
    figures = KnownLimits(LIMITS, manual)
    return {one.code: one for one in requirements_of(work, shipped(engine), figures)}


@lru_cache
def full() -> BuildWork:
    return work_of(AgreedWork(real_comparison().option("full")), shipped("four600"))


def everything(engine: str) -> BuildWork:
    known = shipped(engine)
    return BuildWork((), (), tuple(known.operations))


def bought(component: str, quantity: int = 1) -> ExtraLines:
    line = DraftLine(
        kind="part",
        description=component,
        quantity=Decimal(quantity),
        unit_price=Decimal(10),
        tax_code="standard",
        component=component,
    )
    return ExtraLines(1, (line,))


@pytest.mark.parametrize("tier", ["refresh", "mild", "full"])
def test_the_work_of_an_option_is_the_scope_as_it_was_sold(tier: str) -> None:
    option = real_comparison().option(tier)
    work = work_of(AgreedWork(option), shipped("four600"))
    assert set(work.renewed) == set(option.renewed)
    assert set(work.reworked) == set(option.reconditioned)
    assert set(work.operations) == set(option.operations)


@pytest.mark.parametrize("tier", ["refresh", "mild", "full"])
def test_every_article_of_the_pick_list_is_asked_for(tier: str) -> None:
    option = real_comparison().option(tier)
    agreed = AgreedWork(option, ticked=tuple(option.offered), extra_work=(bought("crankshaft"),))
    picked = {f"new_{pick.component}" for pick in pick_list(agreed, shipped("four600"))}
    found = requirements(work_of(agreed, shipped("four600")))
    assert {
        code for code in picked if code.removeprefix("new_") in shipped("four600").components
    } <= found.keys()


def test_a_part_that_was_sold_by_hand_is_asked_for_though_no_rule_renews_it() -> None:
    by_hand = real_comparison().option("full").model_copy(update={"renewed": {}, "operations": ()})
    assert "cam_intake" in work_of(AgreedWork(by_hand), shipped("four600")).renewed


def observed(code: str, engine: EngineCatalogue) -> Observed | None:
    """The finding on its first component that this engine has."""
    finding = engine.findings.get(code)
    if finding is None:
        return None
    parts = [one for one in finding.any_of if one in engine.components]
    return Observed(id=code, component=parts[0] if parts else None)


@given(
    code=st.sampled_from(FINDINGS),
    engine=st.sampled_from(TYPES),
    tier=st.sampled_from(["refresh", "mild", "full"]),
)
def test_whatever_a_finding_brings_into_the_scope_is_asked_for(code: str, engine: str, tier: str) -> None:
    known = shipped(engine)
    seen = observed(code, known)
    if seen is None:
        return
    event = not known.findings[code].counts_as(event=False)
    told = asked(engine, events=(seen,) if event else (), findings=() if event else (seen,))
    case = case_of(told, tier)
    mendable = frozenset(one for one, part in known.components.items() if part.recondition)
    graph = build_graph(known, in_chassis=False, policy_parts=True, mendable=mendable)
    scope = must_list(case, graph).nodes
    work = BuildWork(
        renewed=tuple(one for one in known.components if ("new", one) in scope),
        reworked=tuple(one for one in known.components if ("done", one) in scope),
        operations=tuple(one for one in known.operations if ("work", one) in scope),
    )
    found = requirements(work, engine)
    given_along = {one for one, givers in graph.givers.items() if set(givers) & set(work.renewed)}
    for renewed in work.renewed:
        part = known.components[renewed]
        brought = (
            part.comes_with if renewed in given_along else (*part.companions_on_renewal, *part.comes_with)
        )
        for one in (renewed, *(other for other in brought if other in known.components)):
            assert f"new_{one}" in found
        for one in () if renewed in given_along else part.recondition_on_renewal:
            assert {f"new_{one}", f"rework_{one}"} & found.keys() or one not in known.components
    for one in work.reworked:
        assert f"rework_{one}" in found


@pytest.mark.parametrize("engine", TYPES)
def test_every_record_of_the_catalogue_is_asked_for_or_stands_elsewhere(engine: str) -> None:
    known = shipped(engine)
    found = requirements(everything(engine), engine)
    for operation in known.operations.values():
        elsewhere = operation.code in BEFORE_IT_IS_OPENED | ONCE_IT_RUNS or operation.kind in NOT_HERE
        assert belongs(operation) or elsewhere
        for record, asks in asks_of(operation) if belongs(operation) else ():
            here = [ask for ask in asks if ask.component in {"", *known.components}]
            plain = known.engine_type.rod_type == "split_plain"
            assert all(ask.code in found for ask in here if plain or not ask.plain), record


def test_a_record_of_the_shops_own_is_asked_for_at_each_place_that_it_names() -> None:
    known = shipped("twin650")
    own = replace(known.operations["rods_on"], code="own", records=("marks per rod",))
    changed = replace(known, operations={**known.operations, "own": own})
    found = requirements_of(BuildWork((), (), ("own",)), changed, KnownLimits({}, {}))
    assert [(one.name, one.places) for one in found] == [
        ("marks per rod", ("rod journal 1", "rod journal 2"))
    ]


@pytest.mark.parametrize(
    ("code", "places", "first"),
    [
        ("main_clearance", 5, "main journal 1"),
        ("rod_clearance", 4, "rod journal 1"),
        ("bolt_stretch", 8, "cylinder 1, rod bolt 1"),
        ("valve_clearance", 16, "cylinder 1, intake left"),
        ("shim_fitted", 16, "cylinder 1, intake left"),
        ("ring_gap_top", 4, "cylinder 1"),
        ("dogs_teeth_gear_4", 1, ""),
        ("centre_intake", 1, ""),
    ],
)
def test_each_place_is_asked_for(code: str, places: int, first: str) -> None:
    found = requirements(everything("four600"))[code]
    assert (len(found.places), found.places[0]) == (places, first)


def test_a_pressed_crank_has_no_shells_and_no_rod_bolts_to_write_down() -> None:
    found = requirements(everything("single450"), "single450")
    assert not {"main_clearance", "rod_clearance", "bolt_stretch", "second_rod_bolts"} & found.keys()
    assert {"crank_end_float", "second_cam_timing", "second_pin_circlips"} <= found.keys()


def test_a_second_person_looks_at_rod_bolts_cam_timing_and_circlips() -> None:
    found = requirements(full())
    assert {code for code in found if code.startswith("second_")} == {
        "second_rod_bolts",
        "second_cam_timing",
        "second_pin_circlips",
        "second_gear_circlips",
    }
    assert found["second_rod_bolts"].checks == ("bolt_stretch", "new_rod_bolt")


def test_single_use_is_ticked_and_every_other_new_part_has_its_number() -> None:
    found = requirements(full())
    assert not found["new_circlip"].numbered
    assert found["new_con_rod"].numbered
    assert found["new_con_rod"].number
    assert found["new_small_end_bush"].note == "comes with the connecting rod"


def test_a_new_part_is_not_asked_how_far_it_is_worn() -> None:
    cover = ("clutch_inspect",)
    assert "friction_thickness" in requirements(BuildWork((), (), cover))
    assert "friction_thickness" not in requirements(BuildWork(("clutch_friction",), (), cover))


def test_the_teardown_serves_for_a_worn_part_that_stays() -> None:
    assert requirements(BuildWork((), (), ("clutch_inspect",)))["steel_warp"].reading == "steel_warp"
    reworked = BuildWork((), ("clutch_steel",), ("clutch_inspect",))
    assert requirements(reworked)["steel_warp"].reading == ""


def test_a_clearance_is_held_to_its_limit_and_not_to_be_tighter_than_new() -> None:
    within = requirements(full())["rod_clearance"].within
    assert within is not None
    assert (within.low, within.high) == (Decimal("0.028"), Decimal("0.06"))
    assert within.source == "default, not from your manual"
    assert [within.holds(Decimal(one)) for one in ("0.027", "0.028", "0.06", "0.061")] == [
        False,
        True,
        True,
        False,
    ]


def test_a_ring_gap_is_held_to_its_share_of_the_bore() -> None:
    within = requirements(full())["ring_gap_top"].within
    assert within is not None
    assert (within.low, within.high) == (Decimal("0.268"), None)


def test_the_makers_figure_stands_before_the_default() -> None:
    manual = ManualFigures(Decimal("0.07"), Decimal("0.03"), Decimal("0.05"), source="Manual 4, page 31")
    within = requirements(full(), rod_clearance=manual)["rod_clearance"].within
    assert within is not None
    assert (within.low, within.high, within.source) == (
        Decimal("0.03"),
        Decimal("0.07"),
        "Manual 4, page 31",
    )


def test_the_record_goes_from_the_crank_to_the_oil() -> None:
    order = assembly_order(shipped("four600"))
    told = ["main_bearing", "crankshaft", "piston", "case_bolt", "head_gasket", "cam_intake", "engine_oil"]
    assert sorted(told, key=order.index) == told


def test_extra_work_brings_its_companions_into_the_record() -> None:
    option = real_comparison().option("refresh")
    less = option.model_copy(update={"renewed": {}, "lines": (), "operations": ()})
    work = work_of(AgreedWork(less, extra_work=(bought("piston"),)), shipped("four600"))
    assert {"piston", "rings", "piston_pin", "circlip"} <= set(work.renewed)


def test_what_extra_work_takes_off_again_is_not_asked_for() -> None:
    option = real_comparison().option("full")
    count = next(line.quantity for line in option.lines if line.component == "cam_exhaust")
    work = work_of(AgreedWork(option, extra_work=(bought("cam_exhaust", -int(count)),)), shipped("four600"))
    assert "cam_exhaust" not in work.renewed
    assert "cam_exhaust" in full().renewed
