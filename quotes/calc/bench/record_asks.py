"""What the catalogue's `records` ask for on the assembly record, word for word, and how each is written.

Common practice, no source. A record that is not in the table, such as one that a workshop adds to an
operation of its own, is asked for as it stands (`ask_of_words`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.engine import Operation
from quotes.calc.bench.places import Kind

AnswerKind = Literal["figure", "words", "tick", "new", "second"]
"""A figure with a unit, words (a torque and angle), a tick, a new article, or a second person's check."""


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing to write down. `at` names its places where the component's own are not meant.

    `wear` marks what is measured on a used part only: a new one has none. `plain` holds for plain bearings.
    """

    code: str
    component: str
    name: str
    kind: AnswerKind = "figure"
    unit: str = "mm"
    at: Kind | None = None
    places: tuple[str, ...] = ()
    limit: str = ""
    wear: bool = False
    plain: bool = False


def _words(code: str, component: str, name: str, at: Kind = "whole", *, plain: bool = False) -> Ask:
    return Ask(code, component, name, "words", "", at, plain=plain)


def _tick(code: str, component: str, name: str, at: Kind = "whole", *, wear: bool = False) -> Ask:
    return Ask(code, component, name, "tick", "", at, wear=wear)


def _worn(code: str, component: str, name: str, limit: str, unit: str = "mm", at: Kind | None = None) -> Ask:
    return Ask(code, component, name, unit=unit, at=at, limit=limit, wear=True)


RING_CLOCKING = (_tick("ring_clocking", "piston", "way round and ring clocking", "cylinder"),)
MAINS = Ask("main_clearance", "main_bearing", "main oil clearance", limit="main_clearance", plain=True)
ROD_SIDE = Ask("rod_side", "con_rod", "rod side clearance", limit="rod_side")
IN_SEQUENCE = "torques, and that they went in sequence"
SHAFTS = ("input shaft", "output shaft")
GEARS = tuple(f"gear_{number}" for number in range(1, 7))
ASKS: Mapping[tuple[str, str], tuple[Ask, ...]] = {
    ("cases_join", "case bolt torques"): (
        _words("case_torque", "case_bolt", IN_SEQUENCE),
        _words("sealant", "crankcase", "sealant used"),
    ),
    ("cases_join", "crank turns free"): (_tick("turns_free", "crankshaft", "turns free, cases joined"),),
    ("crank_in", "main clearances"): (MAINS,),
    ("crank_in", "crank end float"): (Ask("crank_end_float", "crankshaft", "crankshaft end float"),),
    ("bearing_select", "code and colour per position"): (
        _words("main_code", "main_bearing", "code and colour", "main", plain=True),
        _words("rod_code", "rod_bearing", "code and colour", "rod", plain=True),
    ),
    ("plastic_gauge_mains", "clearance per main"): (MAINS,),
    ("plastic_gauge_rods", "clearance per rod"): (
        Ask("rod_clearance", "rod_bearing", "rod oil clearance", limit="rod_clearance", plain=True),
    ),
    ("rods_on", "bolt stretch per bolt"): (
        _words("bolt_stretch", "rod_bolt", "stretch, or torque and angle", "bolt"),
    ),
    ("rods_on", "rod side clearance"): (ROD_SIDE,),
    ("rod_inspect", "side clearance"): (ROD_SIDE,),
    ("rod_inspect", "small end"): (
        _worn("small_end", "small_end_bush", "pin to small end clearance", "small_end_clearance"),
    ),
    ("crank_measure", "runout"): (
        Ask("crank_runout", "crankshaft", "runout, total", at="whole", limit="crank_runout"),
    ),
    ("crank_measure", "journal sizes"): (
        Ask("journal_size", "crankshaft", "journal diameter", at="journal", plain=True),
    ),
    ("balancer_in", "balancer marks photo"): (
        _tick("balancer_marks", "balancer_shaft", "marks in line, photographed"),
    ),
    ("gearbox_in", "end float"): (Ask("shaft_float", "gearbox_bearing", "shaft end float", places=SHAFTS),),
    ("gearbox_rebuild", "shim stack"): (
        Ask("shim_stack", "gearbox_circlip", "shim stack", "words", "", places=SHAFTS),
    ),
    ("gearbox_inspect", "per gear: dogs, teeth"): tuple(
        _tick(f"dogs_teeth_{gear}", gear, "dogs and teeth sound") for gear in GEARS
    ),
    ("selector_in", "all gears select"): (_tick("gears_select", "selector", "all gears select"),),
    ("oil_pump_inspect", "tip and side clearance"): (
        _worn("pump_tip", "oil_pump", "rotor tip clearance", "oil_pump_tip"),
        _worn("pump_side", "oil_pump", "rotor side clearance", "oil_pump_side"),
    ),
    ("clutch_in", "clutch nut torque"): (_words("clutch_nut", "clutch_hub", "nut torque"),),
    ("clutch_in", "pack thickness"): (Ask("clutch_pack", "clutch_friction", "pack thickness", at="whole"),),
    ("clutch_inspect", "thickness, warp, free length"): (
        _worn(
            "friction_thickness",
            "clutch_friction",
            "plate thickness, part of new",
            "friction_thickness",
            "ratio",
        ),
        _worn("steel_warp", "clutch_steel", "plate warp", "steel_warp"),
        _worn("clutch_spring", "clutch_spring", "free length, part of new", "clutch_spring", "ratio"),
    ),
    ("alternator_on", "rotor bolt torque"): (_words("rotor_bolt", "alternator", "rotor bolt torque"),),
    ("bore_measure", "bore at 3 heights x 2 directions"): (
        Ask("bore_size", "bore", "bore, the largest of six"),
        Ask("bore_taper", "bore", "taper or out of round", limit="bore_taper"),
    ),
    ("piston_measure", "skirt, clearance, pin"): (
        Ask("piston_clearance", "piston", "piston to bore clearance", limit="piston_clearance"),
        _worn("skirt_loss", "piston", "skirt diameter lost", "skirt_loss"),
        _worn("pin_clearance", "piston_pin", "pin to piston clearance", "pin_clearance"),
    ),
    ("ring_gap_fit", "ring gaps top/second/oil per cylinder"): (
        Ask("ring_gap_top", "rings", "top ring gap", limit="ring_gap_top_min"),
        Ask("ring_gap_second", "rings", "second ring gap", limit="ring_gap_second_min"),
        Ask("ring_gap_oil", "rings", "oil rail gap"),
    ),
    ("pistons_in", "piston position and ring clocking"): RING_CLOCKING,
    ("piston_rods_in", "piston position and ring clocking"): RING_CLOCKING,
    ("cylinder_on", "base gasket thickness"): (Ask("base_gasket", "base_gasket", "thickness", at="whole"),),
    ("squish_check", "squish per cylinder"): (
        Ask("squish", "piston", "squish"),
        Ask("deck", "piston", "deck height, below the deck is minus"),
    ),
    ("chamber_volume", "chamber cc per cylinder"): (
        Ask("chamber", "cylinder_head", "chamber volume", unit="cc", at="cylinder"),
        Ask("compression_ratio", "cylinder_head", "compression ratio", unit="to 1", at="cylinder"),
    ),
    ("ptv_check", "piston-to-valve intake / exhaust"): (
        Ask("ptv_intake", "valve_intake", "piston to intake valve", at="cylinder", limit="ptv_in"),
        Ask("ptv_exhaust", "valve_exhaust", "piston to exhaust valve", at="cylinder", limit="ptv_ex"),
    ),
    ("crack_dye", "pass / fail with photo"): (_tick("crack_dye", "cylinder_head", "no crack shows in dye"),),
    ("head_flat_check", "warp"): (
        Ask("head_warp", "cylinder_head", "face warp", at="whole", limit="head_warp"),
    ),
    ("head_on", "head torques"): (
        _words("head_torque", "head_bolt", "torques, and that they went in sequence"),
    ),
    ("guide_measure", "clearance per valve"): (
        Ask("stem_intake", "valve_guide", "intake stem to guide", limit="stem_in"),
        Ask("stem_exhaust", "valve_guide", "exhaust stem to guide", limit="stem_ex"),
    ),
    ("valve_vacuum_test", "pass / fail per valve"): (_tick("valve_seals", "valve_seat", "seals", "valve"),),
    ("spring_load_test", "load per spring"): (
        _worn("spring_load", "valve_spring", "seat load, part of new", "spring_load", "ratio"),
    ),
    ("valves_in", "installed height"): (Ask("installed_height", "valve_spring", "installed height"),),
    ("valves_in", "seat load"): (Ask("seat_load", "valve_spring", "seat load at that height", unit="N"),),
    ("cam_inspect", "lobe heights"): (
        _worn("lobe_intake", "cam_intake", "lobe height lost", "cam_lobe_loss"),
        _worn("lobe_exhaust", "cam_exhaust", "lobe height lost", "cam_lobe_loss"),
    ),
    ("cams_in", "timing marks photo"): (
        _tick("timing_marks", "cam_intake", "timing marks in line, photographed"),
    ),
    ("cam_degree", "lobe centres"): (
        Ask("centre_intake", "cam_intake", "lobe centre", unit="degrees", at="whole"),
        Ask("centre_exhaust", "cam_exhaust", "lobe centre", unit="degrees", at="whole"),
    ),
    ("valve_shim_set", "clearance and shim per valve"): (
        Ask("valve_clearance", "shim", "valve clearance, cold"),
        Ask("shim_fitted", "shim", "shim fitted"),
    ),
    ("leakdown_final", "percent per cylinder"): (
        Ask("leakdown_final", "", "leak-down", unit="percent", at="cylinder", limit="leakdown_general"),
    ),
}
BEFORE_IT_IS_OPENED = frozenset({"leakdown_test", "compression_test", "borescope", "valve_clearance_check"})
"""Tests of the engine as it came: they stand on the teardown sheet."""
ONCE_IT_RUNS = frozenset({"dyno_run_in", "dyno_map"})
"""Tests after the record is closed: an engine does not run before."""
NOT_HERE = frozenset({"strip", "clean", "office"})
BUT_THESE = frozenset({"bearing_select"})
PER: Mapping[str, Kind] = {
    "cylinder": "cylinder",
    "valve": "valve",
    "spring": "valve",
    "main": "main",
    "rod": "rod",
    "journal": "journal",
    "bolt": "bolt",
}


def belongs(operation: Operation) -> bool:
    """Whether what an operation records is part of how the engine was built."""
    if operation.code in BEFORE_IT_IS_OPENED | ONCE_IT_RUNS:
        return False
    return operation.kind not in NOT_HERE or operation.code in BUT_THESE


def asks_of(operation: Operation) -> Iterable[tuple[str, tuple[Ask, ...]]]:
    """Each record of the operation with what it asks for."""
    for number, record in enumerate(operation.records, start=1):
        known = ASKS.get((operation.code, record))
        yield record, known or (ask_of_words(operation, record, number),)


def ask_of_words(operation: Operation, record: str, number: int) -> Ask:
    """A record that nobody has put in the table: in words, at each place that it names after `per`."""
    after = record.partition("per ")[2].split()
    at = PER.get(after[0].strip(":,"), "whole") if after else "whole"
    component = next(iter(operation.components), "")
    return Ask(f"{operation.code}_{number}", component, record, "words", "", at)
