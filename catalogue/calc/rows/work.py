"""Rows of labour operations and machine work."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from catalogue.calc.engine import KindOfWork
from catalogue.calc.rows.kinds import Attribute, Code, Codes, Days, Hours, MoneyBand, Name, Row, Text, Unit


class PerPieceRow(Row):
    """Hours added for each piece of this kind."""

    piece: Code
    hours: Hours


class RequiresIfRow(Row):
    """Operations also required where an attribute of the engine type or the job has this value."""

    attribute: Attribute
    equals: Code
    requires: Codes


class ConsumesRow(Row):
    """A part that a refit takes: a full set, as measured, or a number."""

    component: Code
    quantity: Literal["full", "as_measured"] | Annotated[int, Field(ge=1)]
    rule: Literal["always", "policy"]


class OperationRow(Row):
    """A piece of bench work; an engine type without hours does not have it."""

    code: Code
    name: Name
    kind: KindOfWork
    hours: dict[Code, Hours]
    per_piece: PerPieceRow | None = None
    requires: Codes = ()
    requires_if: tuple[RequiresIfRow, ...] = ()
    after: Codes = ()
    undo: Codes = ()
    components: Codes = ()
    consumes: tuple[ConsumesRow, ...] = ()
    records: tuple[Text, ...] = ()
    note: Text = ""
    source: Text = ""


class MachineWorkRow(Row):
    """Work sent out, at the outside shop's price per unit before markup and tax."""

    code: Code
    name: Name
    unit: Unit
    cost: MoneyBand
    lead_typical_days: Days
    lead_slow_days: Days
    needs_operations: Codes = ()
    components: Codes = ()
    vendor: Code
    note: Text = ""
    source: Text = ""
