"""Rows of sources, suppliers, parts with their offers, and facts of the trade."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from catalogue.calc.engine import Grade
from catalogue.calc.rows.kinds import Code, Days, Money, Name, Row, Text


class SourceRow(Row):
    """A published page that values rest on, by a plain description of it."""

    code: Code
    title: Name
    gives: Text = ""


class SupplierRow(Row):
    """Who delivers parts or does machine work."""

    code: Code
    name: Name
    kind: Literal["parts", "machine_work"]
    note: Text = ""
    source: Text = ""


class OfferRow(Row):
    """A supplier's offer of one part: cost per unit before tax, lead time in working days.

    `number` is the supplier's own, empty where it is the part's; its one unit `holds` so many of the part's.
    """

    supplier: Code
    number: Annotated[
        str, StringConstraints(strip_whitespace=True, max_length=100, pattern=r"^[^\x00]*$")
    ] = ""
    holds: Annotated[int, Field(ge=1, le=1000)] = 1
    cost: Money
    pack: Annotated[int, Field(ge=1, le=10_000)] = 1
    minimum_quantity: Annotated[int, Field(ge=1, le=10_000)] = 1
    lead_typical_days: Days
    lead_slow_days: Days
    preferred: bool = True
    note: Text = ""
    source: Text = ""


class PartRow(Row):
    """One part number for one component of one engine type, in one grade. Prices before tax."""

    number: Code
    engine_type: Code
    component: Code
    grade: Grade
    name: Name
    unit: Name
    quantity: Annotated[int, Field(ge=1, le=1000)]
    list_price: Money
    range_low: Annotated[float, Field(gt=0, le=1)]
    range_high: Annotated[float, Field(ge=1, le=10)]
    offers: Annotated[tuple[OfferRow, ...], Field(min_length=1)]
    note: Text = ""
    source: Text = ""


class PolicyRow(Row):
    """A habit of the trade on money or time, as data: where a workshop's own settings begin."""

    code: Code
    value: Any
    currency: Code


class FactRow(Row):
    """A fact of the trade that can be checked."""

    code: Code
    topic: Name
    statement: Text
    values: dict[str, Any] = {}
    formula: Text = ""
    worked_example: Text = ""
    confidence: Literal["", "low", "medium", "high"] = ""
    source: Text = ""
