"""Rows of engine types, duties and tiers: what is built, for what use, and how far."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from catalogue.calc.engine import Basis, Driver, LoadCause
from catalogue.calc.rows.kinds import (
    BandRow,
    Block,
    Change,
    Code,
    Codes,
    Count,
    Grade,
    Name,
    Positive,
    RodType,
    Row,
    Text,
)


class EngineTypeRow(Row):
    """A family of engines with one geometry. Lengths in mm, volumes in cc, masses in g per cylinder."""

    code: Code
    name: Name
    cylinders: Annotated[int, Field(ge=1, le=16)]
    valves_per_cylinder: Annotated[int, Field(ge=2, le=8)]
    bore_mm: Positive
    stroke_mm: Positive
    displacement_cc: Positive
    compression_ratio: Annotated[float, Field(gt=1, le=30)]
    rev_limit_rpm: Positive
    power_rpm: Positive
    crank_power_hp: Positive
    rod_length_mm: Positive
    reciprocating_mass_g: Positive
    block: Block
    case_split: Literal["vertical", "horizontal"]
    gearbox_access: Literal["in_cases", "cassette"]
    gearbox_oil: Literal["engine", "own"] = "engine"
    rod_type: RodType
    pieces: dict[Code, Count]
    note: Text = ""
    source: Text = ""
    geometry_source: Text = ""


class OccasionRow(Row):
    """One event, or a whole season, of a duty."""

    events: Annotated[int, Field(ge=1, le=500)] | None = None
    miles: BandRow | None = None
    hours: BandRow
    runs: Annotated[int, Field(ge=1, le=10_000)] | None = None


class DutyRow(Row):
    """A kind of use: severity per cause of wear, its usual event and season."""

    code: Code
    name: Name
    basis: Basis
    severity: dict[Driver, Annotated[float, Field(ge=0, le=10_000)]]
    event: OccasionRow
    season: OccasionRow
    matters: tuple[Text, ...] = ()
    oil_with_gearbox: Grade = ""
    oil_with_gearbox_why: Text = ""
    oil_without_gearbox: Grade = ""
    oil_without_gearbox_why: Text = ""
    source: Text = ""


Exponent = Annotated[float, Field(gt=0, le=30, allow_inf_nan=False)]


class ExponentRow(Row):
    """A power of load, and between which figures it is published."""

    typical: Exponent
    low: Exponent
    high: Exponent


class LoadLawRow(Row):
    """How life falls with one load; the code is the cause of wear."""

    code: LoadCause
    name: Name
    exponent: ExponentRow
    note: Text = ""
    source: Text = ""


class TierMachineWorkRow(Row):
    """Machine work a tier asks for, and the share of the full count that is sent."""

    code: Code
    share: Annotated[float, Field(gt=0, le=1)] = 1.0
    only_rod_type: RodType | None = None


class LeftOutRow(Row):
    """What a tier leaves out on engines with this block, until the cases are open anyway."""

    block: Block
    components: Codes
    note: Text = ""


class CostMultipleRow(Row):
    """What the tier costs against the plainest one, as the trade would say."""

    typical: Positive
    low: Positive | None = None
    high: Positive | None = None
    source: Text = ""


class TierRow(Row):
    """A way of building: what it changes, what it renews, what that does to life."""

    code: Code
    name: Name
    rank: Annotated[int, Field(ge=0, le=2)]
    purpose: Text
    promise: Text
    compression_delta: Annotated[float, Field(ge=-5, le=5)]
    rev_limit_delta_pct: Annotated[float, Field(ge=-30, le=30)]
    changes: dict[Code, Text]
    changes_by_type: dict[Code, dict[Code, Text]] = {}
    breaks: tuple[Change, ...] = ()
    power_gain_pct: BandRow
    power_note: Text = ""
    power_source: Text = ""
    renew: Codes = ()
    renew_if_due: Codes = ()
    recondition: Codes = ()
    performance_grade: Codes = ()
    left_out_unless_opened: LeftOutRow | None = None
    operations: Codes = ()
    operations_if_separate_block: Codes = ()
    machine_work: tuple[TierMachineWorkRow, ...] = ()
    opens_bottom_end: bool
    life_factors: dict[Driver, Annotated[float, Field(gt=0, le=10)]]
    cost_multiple: CostMultipleRow | None = None
    source: Text = ""
