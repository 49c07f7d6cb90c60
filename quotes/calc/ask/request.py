"""One request for a comparison: the engine, its past, the season planned and what is asked of the sums.

The same shape is read from the headless command, built by the new-quote form and stored with a quote,
so that a quote can be worked out again from what was asked.
"""

from __future__ import annotations

import operator
from datetime import date
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from catalogue.calc.said import to_say

MAX_AMOUNT = 1_000_000
"""No engine has run a million miles, hours or runs: more is a slip of the finger."""

Unit = Literal["h", "mi", "km", "runs"]
Delivered = Literal["loose", "in_chassis"]
Checks = Literal["each_meeting", "each_season", "never"]
TierCode = str
Amount = Annotated[Decimal, Field(gt=0, le=MAX_AMOUNT, allow_inf_nan=False)]
AmountOrNone = Annotated[Decimal, Field(ge=0, le=MAX_AMOUNT, allow_inf_nan=False)]
Price = Annotated[Decimal, Field(ge=0, le=10_000_000, allow_inf_nan=False)]
Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=500, pattern=r"^[^\x00]*$")]
Code = Annotated[str, StringConstraints(min_length=1, max_length=64, pattern=r"^[A-Za-z0-9_.\-]+$")]


class Value(BaseModel):
    """A frozen value that knows no field it was not told of."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Segment(Value):
    """A stretch of past service, with the duty and the tune that it was run in."""

    amount: AmountOrNone
    unit: Unit
    duty: Code
    tier: TierCode = "refresh"
    start: date | None = Field(default=None, alias="from")
    end: date | None = Field(default=None, alias="to")


class Renewal(Value):
    """When a component was renewed: at how much total service, and on what day."""

    at: AmountOrNone
    unit: Unit
    on: date | None = None


class Carried(Value):
    """A part in the engine that brought an age of its own from others: what it has run, wherever that was.

    `history` None means unknown; empty means that it is new.
    """

    serial: Text
    history: tuple[Segment, ...] | None = None
    cycles: Annotated[int, Field(ge=0)] = 0
    """How often it has been reconditioned already, in whichever engine."""


class MeasuredPower(Value):
    """What a dyno read at the peak, on the engine in one tune. It stands in place of an estimate."""

    figure: Annotated[Decimal, Field(gt=0, le=10_000, allow_inf_nan=False)]
    unit: Literal["kW", "hp", "PS"]
    rpm: Annotated[Decimal, Field(gt=0, le=30_000, allow_inf_nan=False)] | None = None
    on: date
    dyno: Text = ""
    correction: Text = ""
    """The standard it was corrected by; empty: none is written down."""
    tier: TierCode | None = None
    """The tune it was measured in; None means what is fitted now."""


class EngineAsked(Value):
    """The engine on the bench. `history` None means unknown; empty means it has not run."""

    type: Code
    delivered: Delivered = "loose"
    fitted: TierCode | None = None
    """Tune fitted now; None means the last segment's, or standard."""
    history: tuple[Segment, ...] | None = None
    renewed: dict[Code, Renewal] = Field(default_factory=dict)
    build_cycles: dict[Code, int] = Field(default_factory=dict)
    """How often a component has been reconditioned already."""
    carried: dict[Code, Carried] = Field(default_factory=dict, exclude_if=operator.not_)
    """Components whose age is not the engine's. Left out of the JSON where there are none, so that what is
    stored keeps its fingerprint."""
    measured_power: MeasuredPower | None = Field(default=None, exclude_if=operator.not_)
    """What a dyno last read on it; left out of the JSON where there is none, as above."""

    def cycles_of(self, component: str) -> int:
        """How often what is in that place has been reconditioned: the part's own count where it has one."""
        carried = self.carried.get(component)
        return carried.cycles if carried else self.build_cycles.get(component, 0)


class Planned(Value):
    """The service to come. Without an amount the duty's own season is taken."""

    duty: Code
    amount: Amount | None = None
    unit: Unit | None = None
    events: Annotated[int, Field(gt=0, le=500)] | None = None
    first_meeting: date | None = None


class Reading(Value):
    """A measured value with its standard and limit, in one unit."""

    component: Code
    quantity: Text
    value: Decimal
    unit: Text
    standard: Decimal
    limit: Decimal
    bad_when: Literal["above", "below"]
    place: Text = ""
    limit_source: Text = to_say("default, not from your manual")


class Observed(Value):
    """A finding or an event from the catalogue, with its place where it has one."""

    id: Code
    component: Code | None = None
    place: Text = ""
    pct_over: Annotated[Decimal, Field(ge=0, le=100)] | None = None
    at: AmountOrNone | None = None


class Refusal(Value):
    """A customer's signed word that a line we must renew stays as it is."""

    component: Code
    signed_by: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
    on: date
    reason: Text = ""


class Bought(Value):
    """Of whom a line's part is bought, where no part of the catalogue says so."""

    supplier: Annotated[str, StringConstraints(max_length=64, pattern=r"^[A-Za-z0-9_.\-]*$")] = ""
    """With its number it is ordered as the catalogue's parts are."""
    number: Annotated[Text, StringConstraints(max_length=64)] = ""
    """The supplier's."""
    cost: Price | None = None
    """What one costs the shop, where that is known."""


class OwnLine(Bought):
    """A line of the desk's own on one option."""

    description: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=300)]
    kind: Literal["labour", "part", "machine_work", "consumables"] = "part"
    quantity: Annotated[Decimal, Field(gt=0, le=100_000)]
    unit: Text = "each"
    unit_price: Price
    included: bool = True
    """False: priced and shown, but not in the sum."""
    note: Text = ""


class LineChange(Value):
    """A quantity or price set by hand on one worked line, with the note that says why."""

    quantity: Annotated[Decimal, Field(ge=0, le=100_000)] | None = None
    unit_price: Price | None = None
    note: Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=300)]


class Edits(Value):
    """What the desk changed by hand on one option."""

    include: tuple[Code, ...] = ()
    leave: tuple[Code, ...] = ()
    lines: dict[str, LineChange] = Field(default_factory=dict)
    """Keyed by the line's `key` (kind:code)."""
    own_lines: tuple[OwnLine, ...] = ()
    discount_pct: Annotated[Decimal, Field(ge=0, le=100)] = Decimal(0)
    discount_reason: Text = ""


class Request(Value):
    """Everything one comparison is worked out from, besides catalogue and workshop."""

    on: date
    engine: EngineAsked
    planned: Planned
    target: Annotated[Decimal, Field(gt=0, lt=1)] | None = None
    budget: Annotated[Decimal, Field(gt=0, le=10_000_000)] | None = None
    """The most that may be spent, with tax."""
    loss: Price | None = None
    """What one engine that stops costs the customer: entry, travel, a wrecked engine."""
    checks: Checks = "each_meeting"
    class_code: Code | None = Field(default=None, alias="class")
    readings: tuple[Reading, ...] = ()
    findings: tuple[Observed | Code, ...] = ()
    events: tuple[Observed | Code, ...] = ()
    include: tuple[Code, ...] = ()
    leave: tuple[Code, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    tiers: Annotated[tuple[TierCode, ...], Field(min_length=1, max_length=3)] = ("refresh", "mild", "full")
    refresh_list: bool = False
    """Take the refresh tier's whole list, not only what must be and what reaches the target."""
    stripped: bool = False
    """The engine has been stripped and measured: the price is firm, not a band."""
    edits: dict[TierCode, Edits] = Field(default_factory=dict)
