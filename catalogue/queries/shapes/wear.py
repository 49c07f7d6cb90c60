"""The shape of components, with their lives, companions and ways in."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.engine import DRIVERS
from catalogue.calc.rows.wear import ComponentRow
from catalogue.models import (
    Companion,
    Component,
    ComponentLife,
    ComponentOperation,
    ComponentWork,
    Measured,
    Reach,
)
from catalogue.models.component_links import CompanionRole
from catalogue.queries.shapes.lines import codes_by_role
from catalogue.queries.shapes.shape import Dump, Line, Lines, Shape, at, put, same, spread

REACHES = {False: "reach", True: "reach_if_one_piece_roller_rod"}
"""Path of the way in, by whether it is the one for a pressed-up crank."""
RECONDITION = {
    "recondition_life_share": "life_share",
    "recondition_max_times": "max_times",
    "recondition_quantity": "machine_work_quantity",
    "recondition_source": "source",
}


def _split_lives(dump: Dump) -> list[Line]:
    return [{"basis": basis, **life} for basis, life in dump["lives"].items()]


def _join_lives(lines: Sequence[Line]) -> Dump:
    return {
        "lives": {line["basis"]: {key: line[key] for key in ("typical", "low", "high")} for line in lines}
    }


def _split_measured(dump: Dump) -> list[Line]:
    return [{"position": place, **measured} for place, measured in enumerate(dump["measured"])]


def _join_measured(lines: Sequence[Line]) -> Dump:
    return {"measured": [{key: line[key] for key in ("what", "rule", "limit", "source")} for line in lines]}


def _split_reaches(dump: Dump) -> list[Line]:
    lines = []
    for roller, path in REACHES.items():
        if (reach := dump[path]) is not None:
            again = reach["recondition"] or {}
            line = {column: again.get(name) for column, name in RECONDITION.items()}
            line["recondition_source"] = line["recondition_source"] or ""
            piece = reach["machine_work_piece"] or ""
            lines.append({"for_roller_rod": roller, "machine_work_piece": piece, **line})
    return lines


def _join_reaches(lines: Sequence[Line]) -> Dump:
    dump: Dump = {}
    for line in lines:
        reach: Dump = {"machine_work_piece": line["machine_work_piece"] or None}
        if line["recondition_life_share"] is not None:
            reach["recondition"] = {name: line[column] for column, name in RECONDITION.items()}
        dump[REACHES[line["for_roller_rod"]]] = reach
    return dump


def _split_ways(dump: Dump) -> list[Line]:
    lines = [
        {"for_roller_rod": roller, "role": role, "way": way, "position": place, "operation_id": code}
        for roller, path in REACHES.items()
        for role, ways in _ways(dump[path] or {})
        for way, operations in enumerate(ways)
        for place, code in enumerate(operations)
    ]
    return lines + [
        {
            "for_roller_rod": False,
            "role": "inspection_operations",
            "way": 0,
            "position": place,
            "operation_id": code,
        }
        for place, code in enumerate(dump["inspection_operations"])
    ]


def _ways(reach: Dump) -> list[tuple[str, Sequence[Sequence[str]]]]:
    return [
        ("access_operations", [reach.get("access_operations", ())]),
        ("access_any_of", reach.get("access_any_of", ())),
        ("with_operations", [reach.get("with_operations", ())]),
    ]


def _join_ways(lines: Sequence[Line]) -> Dump:
    dump: Dump = {}
    for line in lines:
        role, code = line["role"], line["operation_id"]
        if role == "inspection_operations":
            dump.setdefault(role, []).append(code)
            continue
        reach = dump.setdefault(REACHES[line["for_roller_rod"]], {})
        codes = reach.setdefault(role, [])
        if role == "access_any_of":
            if line["way"] == len(codes):
                codes.append([])
            codes = codes[line["way"]]
        codes.append(code)
    return dump


def _split_work(dump: Dump) -> list[Line]:
    return [
        {"for_roller_rod": roller, "role": role, "position": place, "machine_work_id": code}
        for roller, path in REACHES.items()
        for role, inside in WORK_PATHS.items()
        for place, code in enumerate(at(dump, f"{path}.{inside}") or ())
    ]


WORK_PATHS = {"machine_work": "machine_work", "recondition": "recondition.machine_work"}


def _join_work(lines: Sequence[Line]) -> Dump:
    dump: Dump = {}
    for line in lines:
        path = f"{REACHES[line['for_roller_rod']]}.{WORK_PATHS[line['role']]}"
        put(dump, path, [*(at(dump, path) or ()), line["machine_work_id"]])
    return dump


COMPONENTS = Shape(
    "components",
    Component,
    ComponentRow,
    {
        **same(
            "code",
            "name",
            "group",
            "count",
            "single_use",
            "consequence_class",
            "judged_by",
            "judged_by_if_one_piece_roller_rod",
            "service_item",
            "life_source",
            "life_confidence",
            "weibull_shape",
            "stopping_share",
            "evidence_r0",
            "grade_strength",
            "rider_hazards",
            "failure_modes",
            "note",
            "sources",
        ),
        **spread("drivers", DRIVERS),
    },
    lines=(
        Lines(ComponentLife, "component_id", ("basis", "typical", "low", "high"), _split_lives, _join_lives),
        Lines(
            Measured,
            "component_id",
            ("position", "what", "rule", "limit", "source"),
            _split_measured,
            _join_measured,
        ),
        codes_by_role(
            Companion,
            "component_id",
            dict.fromkeys(CompanionRole.values, "other_id"),
            {role: role for role in CompanionRole.values},
        ),
        Lines(
            Reach,
            "component_id",
            ("for_roller_rod", "machine_work_piece", *RECONDITION),
            _split_reaches,
            _join_reaches,
        ),
        Lines(
            ComponentOperation,
            "component_id",
            ("for_roller_rod", "role", "way", "position", "operation_id"),
            _split_ways,
            _join_ways,
        ),
        Lines(
            ComponentWork,
            "component_id",
            ("for_roller_rod", "role", "position", "machine_work_id"),
            _split_work,
            _join_work,
        ),
    ),
    listed=frozenset({"rider_hazards", "failure_modes"}),
    optional=("judged_by_if_one_piece_roller_rod",),
)
