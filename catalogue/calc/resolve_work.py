"""Operations, machine work and parts of one engine type."""

from __future__ import annotations

from decimal import Decimal
from typing import TypedDict

from catalogue.calc.engine import Consumption, Grade, LeadTime, MachineWork, Operation, Part
from catalogue.calc.rows.trade import OfferRow, PartRow
from catalogue.calc.rows.work import ConsumesRow, MachineWorkRow, OperationRow
from catalogue.calc.settled import SettledRows
from catalogue.calc.unit_words import for_cylinders

ONE_EACH = frozenset({"head", "crank", "engine"})
"""Units of machine work of which an engine is one, whatever its pieces."""
IN_CHASSIS_MULTI = "in_chassis_multi"
"""Delivered in the chassis, and more than one cylinder."""


def operations(settled: SettledRows) -> dict[str, Operation]:
    """The operations this engine type has, with their hours and settled conditions."""
    return {
        row.code: _operation(row, settled)
        for row in settled.rows.operations
        if row.code in settled.operations
    }


def _operation(row: OperationRow, settled: SettledRows) -> Operation:
    always, in_chassis = _requires(row, settled)
    return Operation(
        code=row.code,
        name=row.name,
        kind=row.kind,
        hours=hours(row, settled),
        requires=settled.only_operations(always),
        requires_in_chassis=settled.only_operations(in_chassis),
        after=settled.only_operations(row.after),
        undo=settled.only_operations(row.undo),
        components=settled.only_components(row.components),
        consumes=_consumes(row, settled),
        records=row.records,
        note=settled.note(row.note),
        source=settled.source(row.source),
        **_counted(row, settled),
    )


class _Counted(TypedDict):
    """How the hours of an operation are made up."""

    fixed_hours: Decimal
    hours_per_piece: Decimal
    piece: str
    pieces: int


def _counted(row: OperationRow, settled: SettledRows) -> _Counted:
    per_piece = row.per_piece
    return _Counted(
        fixed_hours=row.hours[settled.engine_type.code],
        hours_per_piece=per_piece.hours if per_piece else Decimal(0),
        piece=per_piece.piece if per_piece else "",
        pieces=settled.engine_type.pieces.get(per_piece.piece, 0) if per_piece else 0,
    )


def hours(row: OperationRow, settled: SettledRows) -> Decimal:
    """Fixed hours plus hours per piece times this type's pieces, exact."""
    counted = _counted(row, settled)
    return counted["fixed_hours"] + counted["hours_per_piece"] * counted["pieces"]


def _requires(row: OperationRow, settled: SettledRows) -> tuple[list[str], list[str]]:
    """What it requires on this type: always, and besides when delivered in the chassis."""
    always, in_chassis = list(row.requires), list[str]()
    for condition in row.requires_if:
        if condition.attribute != "delivered":
            if getattr(settled.engine_type, condition.attribute) == condition.equals:
                always += condition.requires
        elif condition.equals == "in_chassis" or (
            condition.equals == IN_CHASSIS_MULTI and settled.engine_type.cylinders > 1
        ):
            in_chassis += condition.requires
    return always, in_chassis


def _consumes(row: OperationRow, settled: SettledRows) -> tuple[Consumption, ...]:
    return tuple(
        Consumption(taken.component, _quantity(taken), taken.rule)
        for taken in row.consumes
        if taken.component in settled.components and (taken.component, "stock") in settled.priced
    )


def _quantity(taken: ConsumesRow) -> int | None:
    return taken.quantity if isinstance(taken.quantity, int) else None


def machine_work(settled: SettledRows) -> dict[str, MachineWork]:
    """The machine work that can be done to this engine type, with its full count."""
    vendors = {row.code: row.name for row in settled.rows.suppliers}
    return {
        row.code: _machine_work(row, settled, vendors[row.vendor])
        for row in settled.rows.machine_work
        if row.code in settled.machine_work
    }


def _machine_work(row: MachineWorkRow, settled: SettledRows, vendor: str) -> MachineWork:
    return MachineWork(
        code=row.code,
        name=row.name,
        unit=row.unit,
        quantity=1 if row.unit in ONE_EACH else settled.engine_type.pieces.get(row.unit, 0),
        cost=row.cost.typical,
        cost_low=row.cost.low,
        cost_high=row.cost.high,
        lead=LeadTime(row.lead_typical_days, row.lead_slow_days),
        needs_operations=row.needs_operations,
        components=settled.only_components(row.components),
        vendor=vendor,
        note=settled.note(row.note),
        source=settled.source(row.source),
    )


def parts(settled: SettledRows) -> dict[tuple[str, Grade], Part]:
    """The price list of this engine type, at the preferred offer's cost."""
    suppliers = {row.code: row.name for row in settled.rows.suppliers}
    return {
        (row.component, row.grade): _part(row, preferred_offer(row), suppliers, settled)
        for row in settled.rows.parts
        if row.engine_type == settled.engine_type.code and row.component in settled.components
    }


def preferred_offer(row: PartRow) -> OfferRow:
    """The offer marked preferred, else the cheapest; ties go to the first supplier by code."""
    return min(row.offers, key=lambda offer: (not offer.preferred, offer.cost, offer.supplier))


def _part(row: PartRow, offer: OfferRow, suppliers: dict[str, str], settled: SettledRows) -> Part:
    return Part(
        number=row.number,
        component=row.component,
        grade=row.grade,
        name=row.name,
        unit=for_cylinders(row.unit, settled.engine_type.cylinders),
        quantity=row.quantity,
        cost=offer.cost,
        list_price=row.list_price,
        range_low=Decimal(str(row.range_low)),
        range_high=Decimal(str(row.range_high)),
        lead=LeadTime(offer.lead_typical_days, offer.lead_slow_days),
        supplier=suppliers[offer.supplier],
        note=settled.note(row.note),
        source=settled.source(row.source),
    )
