"""Shapes of tiers, and of the duties and load laws that they are weighed by."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.engine import DRIVERS
from catalogue.calc.rows.engines import DutyRow, LoadLawRow, TierRow
from catalogue.models import Duty, LoadLaw, Tier, TierChange, TierComponent, TierOperation, TierWork
from catalogue.queries.shapes.lines import codes_by_role
from catalogue.queries.shapes.shape import Dump, Line, Lines, Shape, band, same, spread

BREAKS = ("compression", "cams", "porting", "weight")

TIER_ROLES = {
    "renew": "renew",
    "renew_if_due": "renew_if_due",
    "recondition": "recondition",
    "performance_grade": "performance_grade",
    "left_out": "left_out_unless_opened.components",
}


def _pack_breaks(dump: Dump) -> Line:
    return {f"breaks_{change}": change in dump["breaks"] for change in BREAKS}


def _unpack_breaks(line: Line) -> Dump:
    return {"breaks": [change for change in BREAKS if line[f"breaks_{change}"]]}


def _split_changes(dump: Dump) -> list[Line]:
    words = [(None, what, text) for what, text in dump["changes"].items()]
    for engine_type, changes in dump["changes_by_type"].items():
        words += [(engine_type, what, text) for what, text in changes.items()]
    return [
        {"position": place, "engine_type_id": engine_type, "what": what, "text": text}
        for place, (engine_type, what, text) in enumerate(words)
    ]


def _join_changes(lines: Sequence[Line]) -> Dump:
    dump: Dump = {"changes": {}, "changes_by_type": {}}
    for line in lines:
        changes = dump["changes"]
        if line["engine_type_id"] is not None:
            changes = dump["changes_by_type"].setdefault(line["engine_type_id"], {})
        changes[line["what"]] = line["text"]
    return dump


OPERATION_PATHS = {False: "operations", True: "operations_if_separate_block"}


def _split_operations(dump: Dump) -> list[Line]:
    return [
        {"only_separate_block": only, "position": place, "operation_id": code}
        for only, path in OPERATION_PATHS.items()
        for place, code in enumerate(dump[path])
    ]


def _join_operations(lines: Sequence[Line]) -> Dump:
    return {
        path: [line["operation_id"] for line in lines if line["only_separate_block"] is only]
        for only, path in OPERATION_PATHS.items()
    }


def _split_work(dump: Dump) -> list[Line]:
    return [
        {
            "position": place,
            "machine_work_id": asked["code"],
            "share": asked["share"],
            "only_rod_type": asked["only_rod_type"] or "",
        }
        for place, asked in enumerate(dump["machine_work"])
    ]


def _join_work(lines: Sequence[Line]) -> Dump:
    return {
        "machine_work": [
            {
                "code": line["machine_work_id"],
                "share": line["share"],
                "only_rod_type": line["only_rod_type"] or None,
            }
            for line in lines
        ]
    }


TIERS = Shape(
    "tiers",
    Tier,
    TierRow,
    {
        **same(
            "code",
            "name",
            "rank",
            "purpose",
            "promise",
            "compression_delta",
            "rev_limit_delta_pct",
            "power_note",
            "power_source",
            "opens_bottom_end",
            "source",
        ),
        **band("power_gain_pct"),
        **spread("life_factors", DRIVERS),
        **band("cost_multiple"),
        "cost_multiple_source": "cost_multiple.source",
        "left_out_block": "left_out_unless_opened.block",
        "left_out_note": "left_out_unless_opened.note",
    },
    lines=(
        codes_by_role(TierComponent, "tier_id", dict.fromkeys(TIER_ROLES, "component_id"), TIER_ROLES),
        Lines(
            TierChange,
            "tier_id",
            ("position", "engine_type_id", "what", "text"),
            _split_changes,
            _join_changes,
        ),
        Lines(
            TierOperation,
            "tier_id",
            ("only_separate_block", "position", "operation_id"),
            _split_operations,
            _join_operations,
        ),
        Lines(
            TierWork,
            "tier_id",
            ("position", "machine_work_id", "share", "only_rod_type"),
            _split_work,
            _join_work,
        ),
    ),
    optional=("cost_multiple", "left_out_unless_opened"),
    pack=_pack_breaks,
    unpack=_unpack_breaks,
    packed=tuple(f"breaks_{change}" for change in BREAKS),
)

LOAD_LAWS = Shape(
    "load_laws",
    LoadLaw,
    LoadLawRow,
    {**same("code", "name", "note", "source"), **band("exponent")},
)

DUTIES = Shape(
    "duties",
    Duty,
    DutyRow,
    {
        **same("code", "name", "basis", "matters", "source"),
        **same("oil_with_gearbox", "oil_with_gearbox_why", "oil_without_gearbox", "oil_without_gearbox_why"),
        **spread("severity", DRIVERS),
        **band("event_miles", "event.miles"),
        **band("event_hours", "event.hours"),
        "event_runs": "event.runs",
        "season_events": "season.events",
        **band("season_miles", "season.miles"),
        **band("season_hours", "season.hours"),
        "season_runs": "season.runs",
    },
    listed=frozenset({"matters"}),
    optional=("event.miles", "season.miles"),
)
