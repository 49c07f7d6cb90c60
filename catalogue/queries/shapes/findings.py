"""Shapes of what is seen on an engine: findings, events, and limits of wear."""

from __future__ import annotations

from catalogue.calc.rows.wear import EventRow, FindingRow, LimitRow
from catalogue.models import Event, EventAsks, Finding, FindingAsks, Limit
from catalogue.models.finding import SeenRole
from catalogue.queries.shapes.lines import codes_by_role
from catalogue.queries.shapes.shape import Dump, Line, Shape, same

ASKED = {
    "any_of": "component_id",
    "renew": "component_id",
    "if_one_piece_roller_rod.renew": "component_id",
    "inspect_operations": "operation_id",
    "inspect_if_hard_hit": "operation_id",
    "machine_work": "machine_work_id",
    "machine_work_if_needed": "machine_work_id",
    "if_one_piece_roller_rod.machine_work": "machine_work_id",
}
"""The column that each role's codes stand in. A role is the path of its codes."""

OF_EVENTS = {role: role for role in SeenRole.values if role not in ("any_of", "inspect_if_hard_hit")}


def _pack_instead(dump: Dump) -> Line:
    return {"instead_for_roller_rod": dump["if_one_piece_roller_rod"] is not None}


def _unpack_instead(line: Line) -> Dump:
    return {"if_one_piece_roller_rod": {} if line["instead_for_roller_rod"] else None}


FINDINGS = Shape(
    "findings",
    Finding,
    FindingRow,
    {
        **same("code", "name", "grade", "cause", "only_rod_type", "tell_customer", "note", "source"),
        "component_id": "component",
        "opens_id": "opens",
    },
    lines=(codes_by_role(FindingAsks, "finding_id", ASKED, {role: role for role in SeenRole.values}),),
    optional=("only_rod_type",),
    pack=_pack_instead,
    unpack=_unpack_instead,
    packed=("instead_for_roller_rod",),
    searched=("code", "name", "component", "cause"),
)

EVENTS = Shape(
    "events",
    Event,
    EventRow,
    {
        **same("code", "name", "note", "source"),
        "same_as_finding_id": "same_as_finding",
        "pct_over_low": "pct_over.low",
        "pct_over_high": "pct_over.high",
    },
    lines=(codes_by_role(EventAsks, "event_id", ASKED, OF_EVENTS),),
    optional=("pct_over",),
    pack=_pack_instead,
    unpack=_unpack_instead,
    packed=("instead_for_roller_rod",),
)

LIMITS = Shape(
    "limits",
    Limit,
    LimitRow,
    {
        **same(
            "code", "quantity", "unit", "bad_when", "basis", "limit", "watch", "from_manual", "note", "source"
        ),
        "standard_low": "standard.low",
        "standard_high": "standard.high",
        "component_id": "component",
        "alternative_to_id": "alternative_to",
    },
    searched=("code", "quantity", "component"),
)
