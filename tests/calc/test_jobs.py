"""A tier's whole list as a job: what it opens, renews, sends out and buys."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.calc.engine import (
    Component,
    Consumption,
    EngineCatalogue,
    MachineWork,
    Part,
    Recondition,
    TierMachineWork,
)
from quotes.calc.money.price import MissingPriceError
from quotes.calc.work.jobs import in_whole_pieces, priced_job, tier_list_job
from tests.calc.small import SHOP, catalogue, component, machine_work, operation, part, tier
from tests.cast import shipped

WORK = (
    operation("head_off", undo=("head_on",)),
    operation("head_on", kind="assemble", consumes=(Consumption("head_gasket", None, "always"),)),
    operation("valves_out", requires=("head_off",)),
    operation("cases_split", hours=Decimal(8)),
    operation("pistons_out", requires=("cases_split", "head_off")),
    operation("ring_gap_fit", requires=("pistons_out",)),
)
PARTS: tuple[Component | Part | MachineWork, ...] = (
    component("head_gasket", access_operations=("head_off",)),
    component(
        "valve_exhaust",
        access_operations=("valves_out",),
        machine_work=("seat_cut",),
        machine_work_piece="exhaust_valve",
    ),
    component(
        "valve_seat",
        access_operations=("valves_out",),
        recondition=Recondition(("seat_cut",), 2, 1.0, 3),
    ),
    component("rings", access_operations=("pistons_out",), with_operations=("ring_gap_fit",)),
    *(part(code) for code in ("head_gasket", "valve_exhaust", "rings")),
    machine_work("seat_cut", quantity=4),
    machine_work("gear_undercut", quantity=5, unit="gear_pair"),
)


def with_tier(**changes: object) -> EngineCatalogue:
    return catalogue(*WORK, *PARTS, tier(**changes))


def test_a_list_reaches_what_it_renews_and_buys_what_the_refit_takes() -> None:
    job = tier_list_job(with_tier(renew=("valve_exhaust",)), "refresh", "loose")

    assert job.operations == ("head_off", "valves_out", "head_on")
    assert job.parts == {"head_gasket": None, "valve_exhaust": None}


def test_parts_inside_closed_cases_are_left_out() -> None:
    engine = with_tier(
        renew=("rings", "head_gasket"), left_out_unless_opened=frozenset({"rings"}), operations=("head_off",)
    )

    assert tier_list_job(engine, "refresh", "loose").renewed == ("head_gasket",)


def test_once_the_cases_are_open_they_come_with_their_own_work() -> None:
    engine = with_tier(renew=("rings",), left_out_unless_opened=frozenset({"rings"}))

    job = tier_list_job(engine, "refresh", "loose", opened=True)

    assert job.renewed == ("rings",)
    assert {"pistons_out", "ring_gap_fit"} <= set(job.operations)


def test_a_tier_whose_own_work_splits_the_cases_leaves_nothing_out() -> None:
    engine = with_tier(
        renew=("rings",), left_out_unless_opened=frozenset({"rings"}), operations=("cases_split",)
    )

    assert tier_list_job(engine, "refresh", "loose").renewed == ("rings",)


def test_machine_work_asked_for_twice_is_sent_once_for_the_larger_count() -> None:
    engine = with_tier(
        recondition=("valve_seat",),
        machine_work=(TierMachineWork("seat_cut", 0.75),),
    )

    assert tier_list_job(engine, "refresh", "loose").machine_work == {"seat_cut": Decimal(3)}


def test_a_renewed_part_sends_out_its_own_pieces() -> None:
    engine = shipped("four600")
    exhaust = engine.components["valve_exhaust"]
    job = tier_list_job(
        catalogue(
            *engine.operations.values(),
            exhaust,
            engine.machine_work["seat_cut"],
            tier(renew=("valve_exhaust",)),
            engine_type=engine.engine_type,
        ),
        "refresh",
        "loose",
    )

    assert job.machine_work == {"seat_cut": Decimal(8)}


@pytest.mark.parametrize(("share", "sent"), [(0.67, 3), (0.7, 4), (0.01, 1), (1.0, 5)])
def test_only_whole_pieces_are_sent_out(share: float, sent: int) -> None:
    engine = with_tier(machine_work=(TierMachineWork("gear_undercut", share),))

    job = in_whole_pieces(tier_list_job(engine, "refresh", "loose"))

    assert job.machine_work == {"gear_undercut": Decimal(sent)}


def test_a_part_without_a_price_stops_the_job_by_name() -> None:
    engine = catalogue(*WORK, component("rings"), tier(renew=("rings",)))

    with pytest.raises(MissingPriceError, match="'rings'"):
        priced_job(engine, tier_list_job(engine, "refresh", "loose"), SHOP)


def test_a_job_s_lines_go_from_bench_work_to_consumables() -> None:
    engine = with_tier(renew=("valve_exhaust",), machine_work=(TierMachineWork("seat_cut", 1.0),))

    lines = priced_job(engine, tier_list_job(engine, "refresh", "loose"), SHOP)

    assert [line.key for line in lines] == [
        "labour:head_off",
        "labour:valves_out",
        "labour:head_on",
        "part:head_gasket",
        "part:valve_exhaust",
        "machine_work:seat_cut",
        "consumables:workshop",
    ]


@pytest.mark.parametrize("code", ["single450", "twin650", "four600", "four1000"])
def test_on_the_shipped_fours_rings_wait_until_the_cases_are_open(code: str) -> None:
    engine = shipped(code)

    closed = tier_list_job(engine, "refresh", "loose").renewed
    opened = tier_list_job(engine, "refresh", "loose", opened=True).renewed

    assert ("rings" in closed) == (engine.engine_type.block == "separate")
    assert "rings" in opened
