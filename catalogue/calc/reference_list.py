"""Lists every name by which one row of a catalogue points at another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.engines import TierRow
from catalogue.calc.rows.wear import ComponentRow, EventRow, FindingRow, ReachRow
from catalogue.calc.rows.work import OperationRow


@dataclass(frozen=True, slots=True)
class Reference:
    """The `field` of an `entry` points at rows of kind `target` by their `codes`."""

    kind: str
    entry: str
    field: str
    target: str
    codes: tuple[str, ...]


def references(rows: CatalogueRows) -> Iterator[Reference]:
    """Every reference from row to row."""
    for component in rows.components:
        yield from _of_component(component)
    for operation in rows.operations:
        yield from _of_operation(operation)
    for tier in rows.tiers:
        yield from _of_tier(tier)
    for finding in rows.findings:
        yield from _of_finding(finding)
    for event in rows.events:
        yield from _of_event(event)
    yield from _of_trade(rows)


def _of_component(row: ComponentRow) -> Iterator[Reference]:
    def at(field: str, target: str, codes: tuple[str, ...]) -> Reference:
        return Reference("components", row.code, field, target, codes)

    yield at("count", "engine_types", tuple(row.count))
    for field in (
        "companions_on_renewal",
        "companions_on_damage",
        "recondition_on_renewal",
        "comes_with",
        "comes_with_if_one_piece_roller_rod",
    ):
        yield at(field, "components", getattr(row, field))
    yield at("inspection_operations", "operations", row.inspection_operations)
    yield from _of_reach(row.code, "reach", row.reach)
    if row.reach_if_one_piece_roller_rod:
        yield from _of_reach(row.code, "reach_if_one_piece_roller_rod", row.reach_if_one_piece_roller_rod)


def _of_reach(code: str, field: str, reach: ReachRow) -> Iterator[Reference]:
    ways = tuple(operation for way in reach.access_any_of for operation in way)
    yield Reference("components", code, f"{field}.access_operations", "operations", reach.access_operations)
    yield Reference("components", code, f"{field}.access_any_of", "operations", ways)
    yield Reference("components", code, f"{field}.with_operations", "operations", reach.with_operations)
    yield Reference("components", code, f"{field}.machine_work", "machine_work", reach.machine_work)
    if reach.recondition:
        work = reach.recondition.machine_work
        yield Reference("components", code, f"{field}.recondition", "machine_work", work)


def _of_operation(row: OperationRow) -> Iterator[Reference]:
    def at(field: str, target: str, codes: tuple[str, ...]) -> Reference:
        return Reference("operations", row.code, field, target, codes)

    yield at("hours", "engine_types", tuple(row.hours))
    for field in ("requires", "after", "undo"):
        yield at(field, "operations", getattr(row, field))
    for condition in row.requires_if:
        yield at("requires_if", "operations", condition.requires)
    yield at("components", "components", row.components)
    yield at("consumes", "components", tuple(taken.component for taken in row.consumes))


def _of_tier(row: TierRow) -> Iterator[Reference]:
    def at(field: str, target: str, codes: tuple[str, ...]) -> Reference:
        return Reference("tiers", row.code, field, target, codes)

    for field in ("renew", "renew_if_due", "recondition", "performance_grade"):
        yield at(field, "components", getattr(row, field))
    for field in ("operations", "operations_if_separate_block"):
        yield at(field, "operations", getattr(row, field))
    yield at("machine_work", "machine_work", tuple(asked.code for asked in row.machine_work))
    yield at("changes_by_type", "engine_types", tuple(row.changes_by_type))
    if row.left_out_unless_opened:
        yield at("left_out_unless_opened", "components", row.left_out_unless_opened.components)


def _of_finding(row: FindingRow) -> Iterator[Reference]:
    def at(field: str, target: str, codes: tuple[str, ...]) -> Reference:
        return Reference("findings", row.code, field, target, codes)

    yield at("component", "components", (row.component,))
    yield at("any_of", "components", row.any_of)
    yield at("inspect_if_hard_hit", "operations", row.inspect_if_hard_hit)
    yield at("opens", "operations", (row.opens,) if row.opens else ())
    yield from _asked_for("findings", row)


def _of_event(row: EventRow) -> Iterator[Reference]:
    same = (row.same_as_finding,) if row.same_as_finding else ()
    yield Reference("events", row.code, "same_as_finding", "findings", same)
    yield from _asked_for("events", row)


def _asked_for(kind: str, row: FindingRow | EventRow) -> Iterator[Reference]:
    """What findings and events both ask for."""
    yield Reference(kind, row.code, "renew", "components", row.renew)
    yield Reference(kind, row.code, "inspect_operations", "operations", row.inspect_operations)
    yield Reference(kind, row.code, "machine_work", "machine_work", row.machine_work)
    yield Reference(kind, row.code, "machine_work_if_needed", "machine_work", row.machine_work_if_needed)
    if instead := row.if_one_piece_roller_rod:
        yield Reference(kind, row.code, "if_one_piece_roller_rod.renew", "components", instead.renew)
        work = instead.machine_work
        yield Reference(kind, row.code, "if_one_piece_roller_rod.machine_work", "machine_work", work)


def _of_trade(rows: CatalogueRows) -> Iterator[Reference]:
    for work in rows.machine_work:
        yield Reference("machine_work", work.code, "needs_operations", "operations", work.needs_operations)
        yield Reference("machine_work", work.code, "components", "components", work.components)
        yield Reference("machine_work", work.code, "vendor", "suppliers", (work.vendor,))
    for part in rows.parts:
        yield Reference("parts", part.number, "engine_type", "engine_types", (part.engine_type,))
        yield Reference("parts", part.number, "component", "components", (part.component,))
        offered_by = tuple(offer.supplier for offer in part.offers)
        yield Reference("parts", part.number, "offers", "suppliers", offered_by)
    for limit in rows.limits:
        yield Reference("limits", limit.code, "component", "components", (limit.component,))
        other = (limit.alternative_to,) if limit.alternative_to else ()
        yield Reference("limits", limit.code, "alternative_to", "limits", other)
