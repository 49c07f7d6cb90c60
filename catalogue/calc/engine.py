"""What the catalogue knows about one engine type, as plain frozen values.

Everything here is already worked out for that engine type: components it does not have are absent,
operations that do not apply are absent, and the conditions on block, case split, gearbox access and
rod type have been settled. Only `delivered` (loose or in the chassis) is left to the job.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

Driver = Literal["inertia", "gas", "heat", "shifts", "launches", "dirt", "time"]
LoadCause = Literal["inertia", "gas"]
"""The causes of wear that are loads, so that geometry has something to say of them."""
LOAD_CAUSES: tuple[LoadCause, ...] = ("inertia", "gas")
DRIVERS: tuple[Driver, ...] = ("inertia", "gas", "heat", "shifts", "launches", "dirt", "time")
Basis = Literal["miles", "hours_mx"]
"""The unit in which a reference life is written: track miles, or motocross hours."""
Grade = Literal["stock", "performance"]
JudgedBy = Literal["life", "measure", "disturbed"]
ConsequenceClass = Literal["session", "weekend", "engine"]
KindOfWork = Literal["office", "strip", "clean", "inspect", "assemble", "test"]
FindingGrade = Literal["inspect", "renew", "stop"]


@dataclass(frozen=True, slots=True)
class Band:
    """A low, typical and high figure of one quantity."""

    low: float
    typical: float
    high: float


@dataclass(frozen=True, slots=True)
class LoadLaw:
    """How life falls with one load: with its power `exponent`. Published figures lie from `low` to `high`."""

    exponent: float
    low: float
    high: float
    source: str = ""


@dataclass(frozen=True, slots=True)
class LeadTime:
    """Working days from order to arrival: `typical_days` is the median, `slow_days` the 90 % point."""

    typical_days: float
    slow_days: float


@dataclass(frozen=True, slots=True)
class EngineType:
    """A family of engines with one geometry."""

    code: str
    name: str
    cylinders: int
    valves_per_cylinder: int
    bore_mm: float
    stroke_mm: float
    displacement_cc: float
    compression_ratio: float
    rev_limit_rpm: float
    power_rpm: float
    crank_power_hp: float
    rod_length_mm: float
    reciprocating_mass_g: float
    block: Literal["separate", "integral"]
    case_split: Literal["vertical", "horizontal"]
    gearbox_access: Literal["in_cases", "cassette"]
    rod_type: Literal["split_plain", "one_piece_roller"]
    pieces: Mapping[str, int]
    """How many of each piece the per-piece hours count: cylinder, valve, main, rod, ..."""
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Life:
    """A reference life on one basis, in that basis's unit (miles or motocross hours)."""

    typical: float
    low: float
    high: float
    shape: float | None = None
    """Weibull shape on this basis, where the workshop's own record gave one; else the component's."""
    evidence: float | None = None
    """Strength of the evidence behind it, likewise."""
    source: str = ""
    """Where it comes from, where that is not the component's own source."""


@dataclass(frozen=True, slots=True)
class Recondition:
    """The level below renewal: machine work, no part."""

    machine_work: tuple[str, ...]
    machine_work_quantity: int | None
    """Pieces sent out; None means the natural count of each machine work on this engine."""
    life_share: float
    """Share of a new life that it gives back, 0 to 1."""
    max_times: int


@dataclass(frozen=True, slots=True)
class Component:
    """A place in the engine where something wears; counted and renewed as a set."""

    code: str
    name: str
    group: str
    count: int
    single_use: Literal["yes", "no", "policy"]
    consequence_class: ConsequenceClass
    judged_by: JudgedBy
    lives: Mapping[Basis, Life]
    drivers: Mapping[Driver, float]
    """Share of its wear by cause; sums to 1."""
    weibull_shape: float
    stopping_share: float
    """Share of its failures that come without warning and stop the engine, checked each meeting."""
    rider_hazards: tuple[str, ...]
    access_operations: tuple[str, ...]
    access_any_of: tuple[tuple[str, ...], ...]
    with_operations: tuple[str, ...]
    machine_work: tuple[str, ...]
    """Machine work that goes with renewing it."""
    machine_work_piece: str | None
    """Which piece is counted for that machine work, where it is not the machine work's own unit."""
    recondition: Recondition | None
    companions_on_renewal: tuple[str, ...]
    companions_on_damage: tuple[str, ...]
    recondition_on_renewal: tuple[str, ...]
    comes_with: tuple[str, ...]
    inspection_operations: tuple[str, ...]
    failure_modes: tuple[str, ...] = ()
    note: str = ""
    life_source: str = ""
    life_confidence: str = ""
    evidence_r0: float = 2.0
    """Strength of the evidence behind the reference life, in failures."""
    service_item: bool = False
    """Oil, filter, coolant, plugs: changed at their own interval and left out of the hazard."""

    def shape_on(self, basis: Basis) -> float:
        """Weibull shape of its life on a basis."""
        shape = self.lives[basis].shape
        return self.weibull_shape if shape is None else shape

    def evidence_on(self, basis: Basis) -> float:
        """Strength of the evidence behind its life on a basis, in failures."""
        evidence = self.lives[basis].evidence
        return self.evidence_r0 if evidence is None else evidence

    def source_on(self, basis: Basis) -> str:
        """Where its life on a basis comes from."""
        return self.lives[basis].source or self.life_source

    @property
    def locks_wheel_or_oils_tyre(self) -> bool:
        """Whether its failure may lock the rear wheel or put oil or coolant on the tyre."""
        return bool(self.rider_hazards)


@dataclass(frozen=True, slots=True)
class Consumption:
    """A part that a refit takes. `quantity` None means a full set."""

    component: str
    quantity: int | None
    rule: Literal["always", "policy"]


@dataclass(frozen=True, slots=True)
class Operation:
    """A piece of bench work with its standard hours on this engine type."""

    code: str
    name: str
    kind: KindOfWork
    hours: Decimal
    """Fixed hours plus hours per piece times pieces, at two decimals."""
    requires: tuple[str, ...]
    requires_in_chassis: tuple[str, ...]
    """What it also requires when the engine was delivered in the chassis."""
    after: tuple[str, ...]
    undo: tuple[str, ...]
    components: tuple[str, ...]
    consumes: tuple[Consumption, ...]
    records: tuple[str, ...] = ()
    note: str = ""
    source: str = ""
    fixed_hours: Decimal | None = None
    """The part of the hours that does not go by the piece; None: all of them."""
    hours_per_piece: Decimal = Decimal(0)
    piece: str = ""
    """What is counted: cylinder, valve, main, rod, ..."""
    pieces: int = 0

    @property
    def is_assembly(self) -> bool:
        return self.kind == "assemble"


@dataclass(frozen=True, slots=True)
class MachineWork:
    """Work sent out, at the outside shop's price before markup, per unit."""

    code: str
    name: str
    unit: str
    quantity: int
    """How many units a full job on this engine is."""
    cost: Decimal
    cost_low: Decimal
    cost_high: Decimal
    lead: LeadTime
    needs_operations: tuple[str, ...]
    components: tuple[str, ...]
    vendor: str
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A thing on the price list for one component, in one grade. Prices are before tax."""

    number: str
    component: str
    grade: Grade
    name: str
    unit: str
    quantity: int
    """How many of the unit a full renewal takes."""
    cost: Decimal
    list_price: Decimal
    range_low: Decimal
    range_high: Decimal
    """Factors on the price for the band before strip-down."""
    lead: LeadTime
    supplier: str
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class TierMachineWork:
    """Machine work that a tier asks for, and the share of the full count that is sent."""

    code: str
    share: float


@dataclass(frozen=True, slots=True)
class Tier:
    """A template of changes, settled for this engine type."""

    code: str
    name: str
    rank: int
    """0 refresh, 1 mild, 2 full power: a higher one includes more tune."""
    purpose: str
    promise: str
    changes: Mapping[str, str]
    """What is changed, in words: cams, pistons, rods, ..."""
    compression_delta: float
    rev_limit_delta_pct: float
    power_gain_pct: Band
    power_note: str
    renew: tuple[str, ...]
    renew_if_due: tuple[str, ...]
    recondition: tuple[str, ...]
    performance_grade: frozenset[str]
    operations: tuple[str, ...]
    machine_work: tuple[TierMachineWork, ...]
    opens_bottom_end: bool
    left_out_unless_opened: frozenset[str]
    """Renewed by this tier only when the cases are open anyway (cylinders cast in the case)."""
    life_factors: Mapping[Driver, float]
    breaks: frozenset[str]
    """What a class rule would have to allow: compression, cams, porting, weight."""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Duty:
    """The kind of use: a severity per cause of wear, and its events and season."""

    code: str
    name: str
    basis: Basis
    severity: Mapping[Driver, float]
    event_miles: float | None
    event_hours: float
    season_events: int
    season_miles: float | None
    season_hours: float
    event_runs: int | None = None
    season_runs: int | None = None
    matters: tuple[str, ...] = ()
    oil: str = ""
    """Grade of engine oil for this use, settled by whether the gearbox runs in it; empty where not said."""
    oil_why: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something seen at the strip-down, or an event that was told or logged."""

    code: str
    name: str
    """What is seen, or the event's name."""
    component: str | None
    grade: FindingGrade
    cause: str
    any_of: tuple[str, ...]
    """Where this is not empty the finding must name one of these components."""
    renew: tuple[str, ...]
    inspect_operations: tuple[str, ...]
    machine_work: tuple[str, ...]
    machine_work_if_needed: tuple[str, ...]
    opens: str | None
    tell_customer: str = ""
    is_event: bool = False
    also_finding: bool = False
    """An event that is a finding of the same code as well, such as a seizure: told or seen."""
    pct_over: tuple[float, float] | None = None
    """How far above the rev limit an over-rev of this kind reaches, from and to, in per cent."""
    note: str = ""
    source: str = ""

    def counts_as(self, *, event: bool) -> bool:
        """Whether it may be named among the events, or else among the findings."""
        return self.is_event if event else not self.is_event or self.also_finding


@dataclass(frozen=True, slots=True)
class EngineCatalogue:
    """All that the sums need for one engine type. Keys are codes."""

    engine_type: EngineType
    currency: str
    components: Mapping[str, Component]
    operations: Mapping[str, Operation]
    machine_work: Mapping[str, MachineWork]
    parts: Mapping[tuple[str, Grade], Part]
    tiers: Mapping[str, Tier]
    duties: Mapping[str, Duty]
    findings: Mapping[str, Finding]
    """Findings and events together; an event has `is_event`."""
    grade_strength: Mapping[str, float]
    """How much more load the performance grade bears for the same life, by component; 1 = stock."""
    load_laws: Mapping[str, LoadLaw]
    """By cause of wear: inertia and gas."""
    life_quantile: Mapping[Basis, float]
    """Share of sets failed or out of limits at the reference life."""
    teardowns_seen: int = 0
    """How many of the workshop's own strip-downs stand behind the lives."""
    version: str = field(default="", compare=False)
