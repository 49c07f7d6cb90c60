"""Rows of components, limits, findings and events: where an engine wears, and how it shows."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field, field_validator

from catalogue.calc.engine import Basis, ConsequenceClass, Driver, FindingGrade, JudgedBy
from catalogue.calc.rows.kinds import (
    Code,
    Codes,
    Count,
    Name,
    NotNegative,
    Positive,
    RodType,
    Row,
    Share,
    Text,
)


class LifeRow(Row):
    """A reference life in the unit of its basis: miles or motocross hours."""

    typical: Positive
    low: Positive
    high: Positive


class ReconditionRow(Row):
    """Machine work in place of a new part: the share of a new life it gives back, and how often."""

    machine_work: Annotated[Codes, Field(min_length=1)]
    machine_work_quantity: Annotated[int, Field(ge=1)] | None = None
    life_share: Annotated[float, Field(gt=0, le=1)]
    max_times: Annotated[int, Field(ge=1, le=20)]
    source: Text = ""


class ReachRow(Row):
    """How a component is reached, what goes with renewing it and what is sent out for it."""

    access_operations: Codes = ()
    access_any_of: tuple[Codes, ...] = ()
    with_operations: Codes = ()
    machine_work: Codes = ()
    machine_work_piece: Code | None = None
    recondition: ReconditionRow | None = None


class MeasuredRow(Row):
    """What is measured on a component, as the bench would say it."""

    what: Text
    rule: Text = ""
    limit: Text
    source: Text = ""


class ComponentRow(Row):
    """A place in the engine where something wears; `count` 0 means that a type does not have it."""

    code: Code
    name: Name
    group: Code
    count: dict[Code, Count]
    single_use: Literal["yes", "no", "policy"]
    consequence_class: ConsequenceClass
    judged_by: JudgedBy
    judged_by_if_one_piece_roller_rod: JudgedBy | None = None
    service_item: bool = False
    lives: dict[Basis, LifeRow]
    life_source: Text = ""
    life_confidence: Literal["", "low", "medium", "high"] = ""
    drivers: dict[Driver, Share]
    weibull_shape: Annotated[float, Field(gt=0, le=10)]
    stopping_share: Share | None = None
    """None: the share of its consequence class."""
    evidence_r0: Positive | None = None
    """Strength of evidence behind its life, in failures. None: the catalogue's."""
    grade_strength: Annotated[float, Field(ge=1, le=3)] | None = None
    """How much more load its performance grade bears for the same life. None: 1, as stock."""
    rider_hazards: tuple[Text, ...] = ()
    companions_on_renewal: Codes = ()
    companions_on_damage: Codes = ()
    recondition_on_renewal: Codes = ()
    comes_with: Codes = ()
    comes_with_if_one_piece_roller_rod: Codes = ()
    reach: ReachRow
    reach_if_one_piece_roller_rod: ReachRow | None = None
    inspection_operations: Codes = ()
    failure_modes: tuple[Text, ...] = ()
    measured: tuple[MeasuredRow, ...] = ()
    note: Text = ""
    sources: dict[Code, Text] = {}
    """Where each value came from, by field: count, drivers, weibull_shape, stopping_share, ..."""

    @field_validator("drivers")
    @classmethod
    def _only_causes_there_are(cls, drivers: dict[Driver, float]) -> dict[Driver, float]:
        """A share of nought is no cause."""
        return {driver: share for driver, share in drivers.items() if share}


class StandardRow(Row):
    """The range of a new part."""

    low: float
    high: float


class LimitRow(Row):
    """A grading limit: a default that yields to the maker's manual."""

    code: Code
    component: Code
    quantity: Name
    unit: Name
    bad_when: Literal["above", "below"]
    basis: Text
    standard: StandardRow
    limit: float
    watch: float | None = None
    alternative_to: Code | None = None
    from_manual: bool = False
    note: Text = ""
    source: Text = ""


class RollerRodFinding(Row):
    """What a finding asks for instead, on engines with a pressed-up crank."""

    renew: Codes = ()
    machine_work: Codes = ()


class PctOver(Row):
    """How far above the rev limit an event reaches, in per cent."""

    low: NotNegative = Field(alias="from")
    high: NotNegative = Field(alias="to")
    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class FindingRow(Row):
    """Something seen at the strip-down."""

    code: Code
    name: Name
    component: Code
    grade: FindingGrade
    cause: Text = ""
    any_of: Codes = ()
    only_rod_type: RodType | None = None
    renew: Codes = ()
    inspect_operations: Codes = ()
    inspect_if_hard_hit: Codes = ()
    machine_work: Codes = ()
    machine_work_if_needed: Codes = ()
    if_one_piece_roller_rod: RollerRodFinding | None = None
    opens: Code | None = None
    tell_customer: Text = ""
    note: Text = ""
    source: Text = ""


class EventRow(Row):
    """Something told or logged, without a finding yet."""

    code: Code
    name: Name
    same_as_finding: Code | None = None
    pct_over: PctOver | None = None
    renew: Codes = ()
    inspect_operations: Codes = ()
    machine_work: Codes = ()
    machine_work_if_needed: Codes = ()
    if_one_piece_roller_rod: RollerRodFinding | None = None
    note: Text = ""
    source: Text = ""
