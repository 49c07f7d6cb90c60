"""What the catalogue's `records` ask for on the assembly record, word for word, and how each is written.

Common practice, no source. A record that is not in the table, such as one that a workshop adds to an
operation of its own, is asked for as it stands (`ask_of_words`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.engine import Operation
from catalogue.calc.said import to_say
from quotes.calc.bench.teardown.places import Kind

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


RING_CLOCKING = (_tick("ring_clocking", "piston", to_say("way round and ring clocking"), "cylinder"),)
MAINS = Ask(
    "main_clearance", "main_bearing", to_say("main oil clearance"), limit="main_clearance", plain=True
)
ROD_SIDE = Ask("rod_side", "con_rod", to_say("rod side clearance"), limit="rod_side")
IN_SEQUENCE = to_say("torques, and that they went in sequence")
SHAFTS = (to_say("input shaft"), to_say("output shaft"))
GEARS = tuple(f"gear_{number}" for number in range(1, 7))
ASKS: Mapping[tuple[str, str], tuple[Ask, ...]] = {
    ("cases_join", "case bolt torques"): (
        _words("case_torque", "case_bolt", IN_SEQUENCE),
        _words("sealant", "crankcase", to_say("sealant used")),
    ),
    ("cases_join", "crank turns free"): (
        _tick("turns_free", "crankshaft", to_say("turns free, cases joined")),
    ),
    ("crank_in", "main clearances"): (MAINS,),
    ("crank_in", "crank end float"): (Ask("crank_end_float", "crankshaft", to_say("crankshaft end float")),),
    ("bearing_select", "code and colour per position"): (
        _words("main_code", "main_bearing", to_say("code and colour"), "main", plain=True),
        _words("rod_code", "rod_bearing", to_say("code and colour"), "rod", plain=True),
    ),
    ("plastic_gauge_mains", "clearance per main"): (MAINS,),
    ("plastic_gauge_rods", "clearance per rod"): (
        Ask("rod_clearance", "rod_bearing", to_say("rod oil clearance"), limit="rod_clearance", plain=True),
    ),
    ("rods_on", "bolt stretch per bolt"): (
        _words("bolt_stretch", "rod_bolt", to_say("stretch, or torque and angle"), "bolt"),
    ),
    ("rods_on", "rod side clearance"): (ROD_SIDE,),
    ("rod_inspect", "side clearance"): (ROD_SIDE,),
    ("rod_inspect", "small end"): (
        _worn("small_end", "small_end_bush", to_say("pin to small end clearance"), "small_end_clearance"),
    ),
    ("crank_measure", "runout"): (
        Ask("crank_runout", "crankshaft", to_say("runout, total"), at="whole", limit="crank_runout"),
    ),
    ("crank_measure", "journal sizes"): (
        Ask("journal_size", "crankshaft", to_say("journal diameter"), at="journal", plain=True),
    ),
    ("balancer_in", "balancer marks photo"): (
        _tick("balancer_marks", "balancer_shaft", to_say("marks in line, photographed")),
    ),
    ("gearbox_in", "end float"): (
        Ask("shaft_float", "gearbox_bearing", to_say("shaft end float"), places=SHAFTS),
    ),
    ("gearbox_rebuild", "shim stack"): (
        Ask("shim_stack", "gearbox_circlip", to_say("shim stack"), "words", "", places=SHAFTS),
    ),
    ("gearbox_inspect", "per gear: dogs, teeth"): tuple(
        _tick(f"dogs_teeth_{gear}", gear, to_say("dogs and teeth sound")) for gear in GEARS
    ),
    ("selector_in", "all gears select"): (_tick("gears_select", "selector", to_say("all gears select")),),
    ("oil_pump_inspect", "tip and side clearance"): (
        _worn("pump_tip", "oil_pump", to_say("rotor tip clearance"), "oil_pump_tip"),
        _worn("pump_side", "oil_pump", to_say("rotor side clearance"), "oil_pump_side"),
    ),
    ("clutch_in", "clutch nut torque"): (_words("clutch_nut", "clutch_hub", to_say("nut torque")),),
    ("clutch_in", "pack thickness"): (
        Ask("clutch_pack", "clutch_friction", to_say("pack thickness"), at="whole"),
    ),
    ("clutch_inspect", "thickness, warp, free length"): (
        _worn(
            "friction_thickness",
            "clutch_friction",
            to_say("plate thickness, part of new"),
            "friction_thickness",
            "ratio",
        ),
        _worn("steel_warp", "clutch_steel", to_say("plate warp"), "steel_warp"),
        _worn("clutch_spring", "clutch_spring", to_say("free length, part of new"), "clutch_spring", "ratio"),
    ),
    ("alternator_on", "rotor bolt torque"): (
        _words("rotor_bolt", "alternator", to_say("rotor bolt torque")),
    ),
    ("bore_measure", "bore at 3 heights x 2 directions"): (
        Ask("bore_size", "bore", to_say("bore, the largest of six")),
        Ask("bore_taper", "bore", to_say("taper or out of round"), limit="bore_taper"),
    ),
    ("piston_measure", "skirt, clearance, pin"): (
        Ask("piston_clearance", "piston", to_say("piston to bore clearance"), limit="piston_clearance"),
        _worn("skirt_loss", "piston", to_say("skirt diameter lost"), "skirt_loss"),
        _worn("pin_clearance", "piston_pin", to_say("pin to piston clearance"), "pin_clearance"),
    ),
    ("ring_gap_fit", "ring gaps top/second/oil per cylinder"): (
        Ask("ring_gap_top", "rings", to_say("top ring gap"), limit="ring_gap_top_min"),
        Ask("ring_gap_second", "rings", to_say("second ring gap"), limit="ring_gap_second_min"),
        Ask("ring_gap_oil", "rings", to_say("oil rail gap")),
    ),
    ("pistons_in", "piston position and ring clocking"): RING_CLOCKING,
    ("piston_rods_in", "piston position and ring clocking"): RING_CLOCKING,
    ("cylinder_on", "base gasket thickness"): (
        Ask("base_gasket", "base_gasket", to_say("thickness"), at="whole"),
    ),
    ("squish_check", "squish per cylinder"): (
        Ask("squish", "piston", to_say("squish")),
        Ask("deck", "piston", to_say("deck height, below the deck is minus")),
    ),
    ("chamber_volume", "chamber cc per cylinder"): (
        Ask("chamber", "cylinder_head", to_say("chamber volume"), unit="cc", at="cylinder"),
        Ask("compression_ratio", "cylinder_head", to_say("compression ratio"), unit="to 1", at="cylinder"),
    ),
    ("ptv_check", "piston-to-valve intake / exhaust"): (
        Ask("ptv_intake", "valve_intake", to_say("piston to intake valve"), at="cylinder", limit="ptv_in"),
        Ask("ptv_exhaust", "valve_exhaust", to_say("piston to exhaust valve"), at="cylinder", limit="ptv_ex"),
    ),
    ("crack_dye", "pass / fail with photo"): (
        _tick("crack_dye", "cylinder_head", to_say("no crack shows in dye")),
    ),
    ("head_flat_check", "warp"): (
        Ask("head_warp", "cylinder_head", to_say("face warp"), at="whole", limit="head_warp"),
    ),
    ("head_on", "head torques"): (
        _words("head_torque", "head_bolt", to_say("torques, and that they went in sequence")),
    ),
    ("guide_measure", "clearance per valve"): (
        Ask("stem_intake", "valve_guide", to_say("intake stem to guide"), limit="stem_in"),
        Ask("stem_exhaust", "valve_guide", to_say("exhaust stem to guide"), limit="stem_ex"),
    ),
    ("valve_vacuum_test", "pass / fail per valve"): (
        _tick("valve_seals", "valve_seat", to_say("seals"), "valve"),
    ),
    ("spring_load_test", "load per spring"): (
        _worn("spring_load", "valve_spring", to_say("seat load, part of new"), "spring_load", "ratio"),
    ),
    ("valves_in", "installed height"): (Ask("installed_height", "valve_spring", to_say("installed height")),),
    ("valves_in", "seat load"): (
        Ask("seat_load", "valve_spring", to_say("seat load at that height"), unit="N"),
    ),
    ("cam_inspect", "lobe heights"): (
        _worn("lobe_intake", "cam_intake", to_say("lobe height lost"), "cam_lobe_loss"),
        _worn("lobe_exhaust", "cam_exhaust", to_say("lobe height lost"), "cam_lobe_loss"),
    ),
    ("cams_in", "timing marks photo"): (
        _tick("timing_marks", "cam_intake", to_say("timing marks in line, photographed")),
    ),
    ("cam_degree", "lobe centres"): (
        Ask("centre_intake", "cam_intake", to_say("lobe centre"), unit="degrees", at="whole"),
        Ask("centre_exhaust", "cam_exhaust", to_say("lobe centre"), unit="degrees", at="whole"),
    ),
    ("valve_shim_set", "clearance and shim per valve"): (
        Ask("valve_clearance", "shim", to_say("valve clearance, cold")),
        Ask("shim_fitted", "shim", to_say("shim fitted")),
    ),
    ("leakdown_final", "percent per cylinder"): (
        Ask(
            "leakdown_final", "", to_say("leak-down"), unit="percent", at="cylinder", limit="leakdown_general"
        ),
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
