"""What the shipped catalogue becomes for each engine type."""

from decimal import Decimal

import pytest

from catalogue.calc.resolve import resolve
from catalogue.calc.settled import UnknownEngineTypeError
from tests.cast import shipped, shipped_rows

TYPES = ("single450", "twin650", "four600", "four1000")


def test_everything_ships() -> None:
    rows = shipped_rows()
    counts = {
        kind: len(getattr(rows, kind))
        for kind in ("components", "operations", "machine_work", "tiers", "duties", "findings", "events",
                     "limits", "facts", "sources", "engine_types")
    }  # fmt: skip
    assert counts == {
        "components": 67, "operations": 83, "machine_work": 24, "tiers": 3, "duties": 6, "findings": 40,
        "events": 9, "limits": 37, "facts": 53, "sources": 66, "engine_types": 4,
    }  # fmt: skip


def test_a_block_cast_in_the_case_has_no_base_gasket() -> None:
    four = shipped("four600")
    assert "base_gasket" not in four.components
    assert "cylinder_off" not in four.operations
    assert "base_gasket" not in four.tiers["full"].renew
    assert not any(c.component == "base_gasket" for o in four.operations.values() for c in o.consumes)


def test_a_pressed_up_crank_has_no_rod_bolts_and_its_own_ways_in() -> None:
    single = shipped("single450")
    assert "rod_bolt" not in single.components
    assert "rod_bolt" not in single.components["con_rod"].companions_on_renewal
    assert single.components["con_rod"].access_operations == ("crank_out", "pistons_out")
    assert single.components["con_rod"].machine_work == ("crank_rebuild",)
    assert single.components["crankshaft"].comes_with == ("con_rod", "small_end_bush")
    assert single.components["crankshaft"].recondition is None
    assert single.components["piston"].judged_by == "life"
    assert shipped("four600").components["piston"].judged_by == "measure"


def test_the_way_the_cases_part_decides_what_comes_off_first() -> None:
    always = ("clutch_out", "alternator_off", "selector_out", "oil_pump_out", "water_pump_out")
    assert shipped("single450").operations["cases_split"].requires == (*always, "cylinder_off")
    assert shipped("four600").operations["cases_split"].requires == (*always, "sump_off")


def test_pistons_come_out_by_the_cases_where_the_block_is_cast_in() -> None:
    assert shipped("four600").operations["pistons_out"].requires == ("rods_off", "head_off")
    assert shipped("four600").operations["pistons_out"].undo == ("piston_rods_in",)
    assert shipped("twin650").operations["pistons_out"].requires == ("cylinder_off",)
    assert shipped("twin650").operations["pistons_out"].undo == ("pistons_in",)


def test_a_single_keeps_its_engine_in_the_chassis_for_the_head() -> None:
    assert shipped("single450").operations["head_off"].requires_in_chassis == ()
    assert shipped("twin650").operations["head_off"].requires_in_chassis == ("engine_out",)
    assert shipped("single450").operations["cases_split"].requires_in_chassis == ("engine_out",)


@pytest.mark.parametrize(
    ("engine_type", "operation", "hours"),
    [("four600", "valves_out", "1.0"), ("single450", "valves_out", "0.3"), ("four1000", "rods_on", "1.2"),
     ("twin650", "crank_measure", "0.45"), ("four600", "intake_check", "0.5")],
)  # fmt: skip
def test_hours_are_fixed_plus_per_piece(engine_type: str, operation: str, hours: str) -> None:
    assert shipped(engine_type).operations[operation].hours == Decimal(hours)


@pytest.mark.parametrize(
    ("engine_type", "work", "quantity"),
    [("four600", "seat_cut", 16), ("single450", "seat_cut", 4), ("four600", "replate", 4),
     ("four600", "head_skim", 1), ("twin650", "mpi_rod", 2), ("single450", "gear_undercut", 5),
     ("four1000", "crank_balance", 1)],
)  # fmt: skip
def test_machine_work_is_counted_by_its_unit(engine_type: str, work: str, quantity: int) -> None:
    assert shipped(engine_type).machine_work[work].quantity == quantity


def test_machine_work_that_needs_an_operation_the_type_lacks_is_absent() -> None:
    assert "mpi_rod" not in shipped("single450").machine_work
    assert "mpi_rod" not in shipped("single450").findings["seizure"].machine_work
    assert "mpi_rod" in shipped("four600").machine_work


def test_new_valves_count_their_own_seats() -> None:
    assert shipped("four600").components["valve_intake"].machine_work_piece == "intake_valve"
    assert shipped("four600").engine_type.pieces["intake_valve"] == 8


def test_what_a_refit_takes_is_a_set_a_number_or_as_measured() -> None:
    taken = {
        c.component: (c.quantity, c.rule) for o in shipped("four600").operations.values() for c in o.consumes
    }
    assert taken["head_gasket"] == (None, "always")
    assert taken["cover_gasket"] == (1, "always")
    assert taken["shim"] == (None, "policy")


def test_the_shop_pays_list_less_the_trade_discount() -> None:
    part = shipped("four600").parts["piston", "stock"]
    assert (part.list_price, part.cost, part.quantity) == (Decimal(92), Decimal("73.60"), 4)
    race = shipped("four600").parts["piston", "performance"]
    assert (race.list_price, race.cost, race.lead.slow_days) == (Decimal(170), Decimal("136.00"), 45)
    assert race.supplier == "Race parts importer"


def test_a_part_without_a_price_is_absent() -> None:
    assert ("circlip", "performance") not in shipped("four600").parts
    assert ("sump", "stock") not in shipped("single450").parts


def test_the_stopping_share_is_its_own_or_its_class_s() -> None:
    share = {code: component.stopping_share for code, component in shipped("twin650").components.items()}
    expected = {
        "rod_bolt": 0.6, "con_rod": 0.6, "retainer_collet": 0.5, "selector": 0.5, "valve_spring": 0.4,
        "piston_pin": 0.4, "rod_bearing": 0.35, "piston": 0.25, "cam_chain": 0.25, "main_bearing": 0.2,
        "valve_exhaust": 0.2, "valve_intake": 0.15, "gear_3": 0.15, "clutch_friction": 0.1,
        "clutch_steel": 0.1, "rings": 0.05, "bore": 0.05, "valve_seat": 0.05, "valve_guide": 0.05,
        "crankshaft": 0.25, "clutch_spring": 0.15, "crank_seal": 0.1,
    }  # fmt: skip
    assert {code: share[code] for code in expected} == expected


def test_fluids_filter_and_plugs_are_service_items() -> None:
    found = {code for code, component in shipped("four600").components.items() if component.service_item}
    assert found == {"engine_oil", "oil_filter", "coolant", "spark_plug"}


def test_tiers_leave_the_rings_alone_where_they_are_a_bottom_end_job() -> None:
    four, twin = shipped("four600").tiers, shipped("twin650").tiers
    assert four["refresh"].left_out_unless_opened == {"rings", "circlip", "piston"}
    assert four["mild"].left_out_unless_opened == {"rings", "circlip", "piston"}
    assert four["full"].left_out_unless_opened == frozenset()
    assert twin["refresh"].left_out_unless_opened == frozenset()


def test_tiers_pull_the_pistons_only_where_the_block_comes_off() -> None:
    assert "ring_gap_fit" in shipped("twin650").tiers["refresh"].operations
    assert "ring_gap_fit" not in shipped("four600").tiers["refresh"].operations


def test_tiers_send_out_what_suits_the_crank() -> None:
    single = {work.code for work in shipped("single450").tiers["full"].machine_work}
    four = {work.code: work.share for work in shipped("four600").tiers["full"].machine_work}
    assert "crank_rebuild" in single
    assert "crank_polish" not in single
    assert "crank_polish" in four
    assert "crank_rebuild" not in four
    assert four["gear_undercut"] == 0.67


def test_tiers_say_what_a_class_would_have_to_allow() -> None:
    tiers = shipped("four600").tiers
    assert [(tier.code, tier.rank) for tier in tiers.values()] == [("refresh", 0), ("mild", 1), ("full", 2)]
    assert tiers["refresh"].breaks == frozenset()
    assert tiers["mild"].breaks == {"compression", "cams", "porting"}
    assert tiers["full"].breaks == {"compression", "cams", "porting", "weight"}


def test_tiers_change_in_the_type_s_own_words() -> None:
    assert shipped("single450").tiers["full"].changes["rods"] == "race rod kit"
    assert shipped("four600").tiers["full"].changes["rods"] == "race rods"


def test_findings_and_events_fit_the_type() -> None:
    single, four = shipped("single450").findings, shipped("four600").findings
    assert single["crank_runout"].renew == ("con_rod", "main_bearing")
    assert single["crank_runout"].machine_work == ("crank_rebuild",)
    assert four["crank_runout"].renew == ("crankshaft", "main_bearing")
    assert "rod_clearance_over" not in single
    assert "big_end_play" not in four
    assert single["oil_starvation"].renew == ("con_rod", "oil_filter", "engine_oil")
    assert "rod_bolt" not in single["over_rev"].renew
    assert "gear_6" not in single["dogs_rounded"].any_of
    assert four["over_rev"].is_event
    assert not four["bolt_long"].is_event


def test_a_hard_hit_asks_for_more_in_its_note() -> None:
    note = shipped("four600").findings["crash_end_cover"].note
    assert note == "After a hard hit also: crank runout and journals."


def test_a_seizure_told_asks_for_what_a_seizure_seen_asks_for() -> None:
    seizure = shipped("four600").findings["seizure"]
    assert seizure.counts_as(event=True)
    assert seizure.counts_as(event=False)
    assert not shipped("four600").findings["over_rev"].counts_as(event=False)
    assert not shipped("four600").findings["bolt_long"].counts_as(event=True)
    assert "rod_bolt" in seizure.renew
    assert seizure.opens == "cases_split"


def test_sources_are_given_by_the_title_of_the_page() -> None:
    component = shipped("four600").components["rings"]
    assert component.life_source.startswith(
        "published: Motocross retailer's note: piston and ring intervals;"
    )
    assert "S12" not in component.life_source


@pytest.mark.parametrize("engine_type", TYPES)
def test_nothing_points_at_what_the_type_lacks(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    for operation in catalogue.operations.values():
        for named in (operation.requires, operation.requires_in_chassis, operation.after, operation.undo):
            assert set(named) <= set(catalogue.operations)
        assert set(operation.components) <= set(catalogue.components)
    for component in catalogue.components.values():
        assert set(component.companions_on_renewal) <= set(catalogue.components)
        assert set(component.access_operations) <= set(catalogue.operations)
        assert set(component.machine_work) <= set(catalogue.machine_work)
    for finding in catalogue.findings.values():
        assert set(finding.renew) <= set(catalogue.components)


def test_an_unknown_engine_type_is_refused_with_the_ones_there_are() -> None:
    with pytest.raises(UnknownEngineTypeError, match="single450, twin650, four600, four1000"):
        resolve(shipped_rows(), "v8")
