"""The trade's two plain jobs, a top end and a bottom end, on the catalogue that ships.

No list of them was kept with the figures that test_trade_figures.py holds; these were found by search. Top
end: the refresh tier's operations without the borescope. Bottom end: of all sets of its operations three
give the printed hours of every type, and this one gives the printed sums as well, with a list of parts that
a builder would write. Another list might give the same sums. Two things are odd: the top end buys no shims,
though it sets the clearances (they are bought as measured); the bottom end buys gear-shaft circlips, though
it only looks at the gearbox: with the hours of rebuilding it nothing would come out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Delivered
from quotes.calc.work.bought import to_buy
from quotes.calc.work.order import order_of_work
from tests.calc.trade_list import job_closure, taken_new
from tests.calc.whole.tier_jobs import Job


@dataclass(frozen=True)
class Plain:
    """What is wanted of any engine; what an engine does not have drops out."""

    operations: tuple[str, ...]
    renewed: tuple[str, ...]
    machine_work: tuple[str, ...]


TOP_END = Plain(
    operations=(
        "intake_check",
        "leakdown_test",
        "findings_report",
        "valve_clearance_check",
        "cam_inspect",
        "head_flat_check",
        "valve_vacuum_test",
        "valves_out",
        "spring_load_test",
        "guide_measure",
        "gasket_faces",
        "wash_top",
        "cam_chain_swap",
        "valve_shim_set",
        "leakdown_final",
        "build_record",
    ),
    renewed=(
        "head_gasket",
        "head_bolt",
        "gasket_kit_top",
        "valve_intake",
        "valve_exhaust",
        "valve_spring",
        "valve_seal",
        "cam_chain",
        "spark_plug",
        "oil_filter",
        "engine_oil",
        "coolant",
    ),
    machine_work=("seat_cut", "head_skim"),
)
"""Head, valves, springs, seats, cam chain."""
CYLINDERS = Plain(
    operations=("pistons_out", "bore_measure", "piston_measure", "ring_gap_fit", "deglaze"),
    renewed=("rings", "circlip", "base_gasket"),
    machine_work=(),
)
"""Part of a top end where the cylinders come off alone; where they are cast in the case, of a bottom end."""
BOTTOM_END = Plain(
    operations=(
        "crank_out",
        "crank_measure",
        "rods_off",
        "rod_inspect",
        "plastic_gauge_rods",
        "plastic_gauge_mains",
        "bearing_select",
        "balancer_out",
        "case_bearings_renew",
        "gearbox_inspect",
        "clutch_inspect",
        "oil_pump_inspect",
        "wash_bottom",
    ),
    renewed=(
        "piston",
        "piston_pin",
        "rod_bolt",
        "rod_bearing",
        "main_bearing",
        "gasket_kit_bottom",
        "case_bolt",
        "crank_seal",
        "output_seal",
        "water_pump_seal",
        "balancer_bearing",
        "gearbox_bearing",
        "gearbox_circlip",
        "selector",
        "clutch_friction",
        "clutch_spring",
    ),
    machine_work=("mpi_crank", "mpi_rod"),
)
PRESSED_UP_CRANK = Plain(operations=(), renewed=("con_rod",), machine_work=("crank_rebuild",))
"""Part of a bottom end where the rod can't be taken off its crankshaft."""


def top_end(engine: EngineCatalogue) -> tuple[Plain, ...]:
    return (TOP_END, CYLINDERS) if engine.engine_type.block == "separate" else (TOP_END,)


def bottom_end(engine: EngineCatalogue) -> tuple[Plain, ...]:
    with_pistons = (BOTTOM_END, replace(CYLINDERS, renewed=("rings", "circlip")))
    if engine.engine_type.rod_type == "one_piece_roller":
        return (*with_pistons, PRESSED_UP_CRANK)
    return with_pistons


def plain_job(engine: EngineCatalogue, *parts: Plain, delivered: Delivered = "loose") -> Job:
    """One job of several plain ones, with what is shared counted once."""
    wanted = [code for plain in parts for code in plain.operations if code in engine.operations]
    operations = job_closure(engine, wanted, delivered=delivered)
    renewed = tuple(dict.fromkeys(code for plain in parts for code in plain.renewed))
    sent = [code for plain in parts for code in plain.machine_work if code in engine.machine_work]
    return Job(
        operations=order_of_work(engine, operations),
        renewed=renewed,
        reconditioned=(),
        parts=to_buy(engine, renewed, taken_new(engine, operations)),
        machine_work={code: Decimal(engine.machine_work[code].quantity) for code in sent},
        performance=frozenset(),
    )
