"""The finished answer, frozen: page, PDF, workbook and command draw these values and compute none.

Chances are shares between 0 and 1. Money is Decimal in the sheet's currency. Amounts of service carry
their unit beside them.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal, Self

from pydantic import model_validator

from quotes.calc.ask.request import Unit, Value
from quotes.calc.sheet.base_values import Ready as Ready
from quotes.calc.sheet.base_values import Service as Service
from quotes.calc.sheet.base_values import Spread as Spread
from quotes.calc.sheet.exposure_values import Exposure
from quotes.calc.sheet.life_values import LifeBar
from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.tune_values import PowerBand, TuneFigures

State = Literal["must", "worth it", "offered", "left"]
Kind = Literal["labour", "part", "machine_work", "consumables", "discount"]


class Range(Value):
    """A low, typical and high figure that is not money."""

    low: float
    typical: float
    high: float


class Line(Value):
    """One priced line. `key` (kind:code) names it to the worksheet."""

    key: str
    kind: Kind
    code: str
    description: str
    quantity: Decimal
    unit: str
    unit_price: Decimal
    net: Decimal
    tax_code: str
    state: State
    reason_code: str
    reason: str
    component: str | None = None
    cost: Decimal | None = None
    """What the line costs the shop; taken out before a customer sees the sheet."""
    list_price: Decimal | None = None
    edited: str = ""
    """The note of the hand that changed it."""


class WorkStep(Value):
    """A labour operation in its place in the order of work."""

    code: str
    name: str
    kind: str
    hours: Decimal


class TaxGroup(Value):
    """Tax on the sum of one (category, rate); the components add up to the tax."""

    code: str
    category: str
    rate_pct: Decimal
    taxable: Decimal
    tax: Decimal
    components: tuple[tuple[str, Decimal, Decimal], ...]
    """Name, rate in per cent, tax."""
    reason: str = ""


class Reason(Value):
    """Why a component is dealt with as it is, for a customer to read."""

    component: str
    name: str
    code: str
    sentence: str
    state: State
    chain: tuple[str, ...] = ()
    """What brought it in, from the first cause on."""
    rider_safety: bool = False


class Brought(Value):
    """What renewing a part takes of the shop, with all that it brings on top of the option, at cost."""

    parts: Decimal
    machine_work: Decimal
    hours: Decimal


class Risk(Value):
    """What a component that is left may do."""

    component: str
    name: str
    used_pct: float
    """Share of its life used when the planned service begins, per cent."""
    used_pct_at_end: float
    stops_in_100: float
    rider_safety: bool
    sentence: str
    cost_to_renew: Decimal
    """Net, with what it would bring along, on top of the option."""
    takes: Brought | None = None
    """Where it is offered; taken out before a customer sees the sheet."""
    refused_by: str = ""


class Chance(Value):
    """That the engine does not stop the planned service, with the 80 % band.

    Where the option has a season, it is driven by that plan with the openings made, at the season's price.
    """

    value: float
    low: float
    high: float
    target: float | None
    target_met: bool
    events: int
    first_event: float
    last_event: float
    to_first_opening: float | None = None
    """Chance until the engine must be opened inside the service, which the target is then judged by."""
    to_first_opening_low: float | None = None
    to_first_opening_high: float | None = None
    first_event_low: float | None = None
    first_event_high: float | None = None
    last_event_low: float | None = None
    last_event_high: float | None = None


class WheelLock(Value):
    """Chance that a part which can lock the wheel or oil the tyre fails and stops the engine.

    Over the planned service, or over the worst stretch between openings where there are any: that is what the
    ceiling holds for.
    """

    value: float
    ceiling: float
    met: bool
    low: float | None = None
    high: float | None = None


class Due(Value):
    """The next component whose life runs out, from the start of the planned service."""

    component: str
    name: str
    amount: float
    unit: Unit
    seasons: float


class Opening(Value):
    """When the engine must be opened again inside the planned service."""

    amount: float
    unit: Unit
    sentence: str


class Against(Value):
    """A paired comparison with another option on chance."""

    other: str
    better_share: float
    """Share of the pairs in which this option has the better chance."""
    verdict: Literal["better", "worse", "cannot be told apart"]
    difference: float
    difference_low: float
    difference_high: float
    sentence: str


class LadderStep(Value):
    """One step from cheapest to safest: what it adds, what it costs, what it buys."""

    number: int
    adds: tuple[str, ...]
    names: tuple[str, ...]
    more: Decimal
    """How much dearer than the step before, with tax."""
    gross: Decimal
    chance: float
    is_option: bool
    low: float | None = None
    """The chance between which and `high` 8 in 10 estimates lie; older sheets do not say."""
    high: float | None = None
    bought: str = ""
    """What the step buys, in words."""


OWN_HANDS = "own_hands"
"""Stands for a component where faults of our own are counted among the causes."""


class HazardShare(Value):
    """Where the chance goes: engines in 100 stopped by one component over the planned service."""

    name: str
    state: str
    stops_in_100: float
    component: str = ""
    """Its code, or OWN_HANDS; none for all the rest, and on older sheets."""


class Option(Value):
    """One tier worked out for one engine and one planned service."""

    tier: str
    name: str
    purpose: str
    promise: str
    tune: str
    """The tune it is judged on: its own, or what was fitted already."""
    net: Spread
    tax: Spread
    gross: Spread
    tax_groups: tuple[TaxGroup, ...]
    hours: Decimal
    operations: tuple[str, ...]
    work: tuple[WorkStep, ...]
    shared_hours_saved: Decimal
    lines: tuple[Line, ...]
    renewed: dict[str, Reason]
    reconditioned: dict[str, Reason]
    offered: dict[str, Risk]
    left: dict[str, Risk]
    if_needed: tuple[Line, ...]
    chance: Chance
    wheel_lock: WheelLock
    where_the_chance_goes: tuple[HazardShare, ...]
    attention: tuple[str, ...]
    """What must be said before this is sold: a ceiling not met, a class rule broken, a refusal."""
    breaks_class: tuple[str, ...]
    good_for: Service
    good_for_reason: str
    openings: tuple[Opening, ...]
    first_due: Due | None
    power_gain_pct: Range
    power_note: str
    cost_per_season: Decimal
    cost_per_unit: Decimal
    cost_unit: Unit
    expected_loss: Decimal | None
    """Cost plus loss x (1 - chance), where the customer named a loss."""
    deposit: Decimal
    ready: Ready
    against: tuple[Against, ...]
    ladder: tuple[LadderStep, ...]
    notes: tuple[str, ...]
    lives: tuple[LifeBar, ...] = ()
    """Life used and left of every component, the one nearest its end first."""
    season: SeasonPlan | None = None
    """The planned service as a sequence, where the engine has to be opened inside it."""
    exposure: Exposure | None = None
    """The hazards that the build runs through, to hold what was seen against."""
    tune_figures: TuneFigures | None = None

    @model_validator(mode="after")
    def sums_agree(self) -> Self:
        for which in ("low", "typical", "high"):
            net, tax, gross = (getattr(part, which) for part in (self.net, self.tax, self.gross))
            if net + tax != gross:
                raise ValueError(f"{self.tier}: {which} net {net} + tax {tax} is not gross {gross}")
        if sum(line.net for line in self.lines) != self.net.typical:
            raise ValueError(f"{self.tier}: the lines do not add up to net {self.net.typical}")
        return self

    @property
    def planned_gross(self) -> Spread:
        """What the chance costs: the whole season with its openings, or this job where there are none."""
        return self.gross if self.season is None else self.season.gross


class LeaveIt(Value):
    """The engine as it is, with oil and filter at most."""

    name: str
    tune: str
    net: Decimal
    tax: Decimal
    gross: Decimal
    hours: Decimal
    chance: Chance
    wheel_lock: WheelLock
    falls_due: tuple[Due, ...]
    good_for: Service
    good_for_reason: str
    attention: tuple[str, ...]
    where_the_chance_goes: tuple[HazardShare, ...]
    notes: tuple[str, ...]
    lives: tuple[LifeBar, ...] = ()
    power: PowerBand | None = None
    """Where a dyno has read it in the tune that is fitted."""
    expected_loss: Decimal | None = None
    """Cost plus loss x (1 - chance), where the customer named a loss."""


class Comparison(Value):
    """Leave it, and up to three options, for one request."""

    on: date
    currency: str
    decimals: int
    engine_type: str
    engine_type_name: str
    duty: str
    duty_name: str
    planned: Service
    planned_in_words: str
    target_in_words: str
    history_in_words: tuple[str, ...]
    checks: str
    firm: bool
    """False before strip-down: prices are bands."""
    teardowns_seen: int
    shop_factor: float
    leave_it: LeaveIt
    options: tuple[Option, ...]
    assumptions: tuple[str, ...]
    budget: Decimal | None = None
    """With tax, where the safest for a sum was asked for."""

    def option(self, tier: str) -> Option:
        """The option of a tier; KeyError where it was not worked out."""
        for option in self.options:
            if option.tier == tier:
                return option
        raise KeyError(tier)


class Party(Value):
    """A name and address as printed."""

    name: str
    lines: tuple[str, ...] = ()
    telephone: str = ""
    email: str = ""
    tax_registration: str = ""


class Heading(Value):
    """What stands in the title strip and foot of every sheet of one quote."""

    number: str
    revision: int
    issued_on: date
    valid_until: date
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    class_name: str = ""
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"


class Change(Value):
    """One difference from the last revision, in words."""

    what: str
    before: str
    after: str


class Sheet(Value):
    """An issued revision as it was: reprinting it needs no catalogue and no sums."""

    heading: Heading
    comparison: Comparison
    terms: tuple[str, ...]
    cautions: tuple[str, ...]
    honesty: tuple[str, ...]
    """The five sentences that stand wherever a chance does."""
    changes: tuple[Change, ...] = ()
    limit_without_asking_pct: Decimal = Decimal(0)

    def for_customer(self) -> Sheet:
        """The same sheet without what the shop paid."""
        options = tuple(
            option.model_copy(
                update={
                    "lines": tuple(_without_cost(line) for line in option.lines),
                    "if_needed": tuple(_without_cost(line) for line in option.if_needed),
                    "offered": {
                        code: risk.model_copy(update={"takes": None}) for code, risk in option.offered.items()
                    },
                }
            )
            for option in self.comparison.options
        )
        return self.model_copy(update={"comparison": self.comparison.model_copy(update={"options": options})})


def _without_cost(line: Line) -> Line:
    return line.model_copy(update={"cost": None, "list_price": None})
