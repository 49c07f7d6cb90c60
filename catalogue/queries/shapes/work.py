"""Shapes of operations, machine work and parts."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.rows.trade import PartRow
from catalogue.calc.rows.work import MachineWorkRow, OperationRow
from catalogue.models import (
    Consumption,
    MachineWork,
    Offer,
    Operation,
    OperationComponent,
    OperationHours,
    OperationLink,
    Part,
    WorkComponent,
    WorkNeeds,
)
from catalogue.queries.shapes.lines import codes
from catalogue.queries.shapes.shape import Dump, Line, Lines, Shape, band, same

PLAIN_ROLES = ("requires", "after", "undo")


def _split_hours(dump: Dump) -> list[Line]:
    return [{"engine_type_id": code, "hours": hours} for code, hours in dump["hours"].items()]


def _join_hours(lines: Sequence[Line]) -> Dump:
    return {"hours": {line["engine_type_id"]: line["hours"] for line in lines}}


def _split_links(dump: Dump) -> list[Line]:
    lines = [
        {"role": role, "position": place, "other_id": code, "condition": 0, "attribute": "", "equals": ""}
        for role in PLAIN_ROLES
        for place, code in enumerate(dump[role])
    ]
    conditions = [
        {"condition": which, "attribute": asked["attribute"], "equals": asked["equals"], "other_id": code}
        for which, asked in enumerate(dump["requires_if"])
        for code in asked["requires"]
    ]
    return lines + [
        {"role": "requires_if", "position": place, **line} for place, line in enumerate(conditions)
    ]


def _join_links(lines: Sequence[Line]) -> Dump:
    dump: Dump = {role: [line["other_id"] for line in lines if line["role"] == role] for role in PLAIN_ROLES}
    conditions: dict[int, Dump] = {}
    for line in lines:
        if line["role"] == "requires_if":
            asked = {"attribute": line["attribute"], "equals": line["equals"], "requires": []}
            conditions.setdefault(line["condition"], asked)["requires"].append(line["other_id"])
    return {**dump, "requires_if": list(conditions.values())}


def _split_consumes(dump: Dump) -> list[Line]:
    return [
        {
            "position": place,
            "component_id": taken["component"],
            "quantity": taken["quantity"] if isinstance(taken["quantity"], int) else None,
            "as_measured": taken["quantity"] == "as_measured",
            "rule": taken["rule"],
        }
        for place, taken in enumerate(dump["consumes"])
    ]


def _join_consumes(lines: Sequence[Line]) -> Dump:
    return {
        "consumes": [
            {
                "component": line["component_id"],
                "quantity": line["quantity"] or ("as_measured" if line["as_measured"] else "full"),
                "rule": line["rule"],
            }
            for line in lines
        ]
    }


OPERATIONS = Shape(
    "operations",
    Operation,
    OperationRow,
    {
        **same("code", "name", "kind", "records", "note", "source"),
        "per_piece_piece": "per_piece.piece",
        "per_piece_hours": "per_piece.hours",
    },
    lines=(
        Lines(OperationHours, "operation_id", ("engine_type_id", "hours"), _split_hours, _join_hours),
        Lines(
            OperationLink,
            "operation_id",
            ("role", "position", "other_id", "condition", "attribute", "equals"),
            _split_links,
            _join_links,
        ),
        codes(OperationComponent, "operation_id", "component_id", "components"),
        Lines(
            Consumption,
            "operation_id",
            ("position", "component_id", "quantity", "as_measured", "rule"),
            _split_consumes,
            _join_consumes,
        ),
    ),
    listed=frozenset({"records"}),
    optional=("per_piece",),
)
MACHINE_WORK = Shape(
    "machine_work",
    MachineWork,
    MachineWorkRow,
    {
        **same("code", "name", "unit", "lead_typical_days", "lead_slow_days", "note", "source"),
        **band("cost"),
        "vendor_id": "vendor",
    },
    lines=(
        codes(WorkNeeds, "machine_work_id", "operation_id", "needs_operations"),
        codes(WorkComponent, "machine_work_id", "component_id", "components"),
    ),
)
OFFER = (
    "supplier_id",
    "number",
    "holds",
    "cost",
    "pack",
    "minimum_quantity",
    "lead_typical_days",
    "lead_slow_days",
    "preferred",
    "note",
    "source",
)


def _split_offers(dump: Dump) -> list[Line]:
    return [{column: offer[column.removesuffix("_id")] for column in OFFER} for offer in dump["offers"]]


def _join_offers(lines: Sequence[Line]) -> Dump:
    return {"offers": [{column.removesuffix("_id"): line[column] for column in OFFER} for line in lines]}


PARTS = Shape(
    "parts",
    Part,
    PartRow,
    {
        **same(
            "grade", "name", "unit", "quantity", "list_price", "range_low", "range_high", "note", "source"
        ),
        "code": "number",
        "engine_type_id": "engine_type",
        "component_id": "component",
    },
    lines=(Lines(Offer, "part_id", OFFER, _split_offers, _join_offers),),
    searched=("number", "name", "component", "engine_type"),
)
