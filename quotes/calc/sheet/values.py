"""The finished answer, frozen: page, PDF, workbook and command draw these values and compute none.

Chances are shares between 0 and 1. Money is Decimal in the sheet's currency. Amounts of service carry
their unit beside them.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Self

from pydantic import model_validator

from quotes.calc.ask.request import Unit, Value
from quotes.calc.sheet.base_values import Ready, Service, Spread
from quotes.calc.sheet.chance_values import Against, Chance, Due, HazardShare, LadderStep, Opening, WheelLock
from quotes.calc.sheet.exposure_values import Exposure
from quotes.calc.sheet.life_values import LifeBar
from quotes.calc.sheet.line_values import Line, Reason, Risk, TaxGroup, WorkStep
from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.tune_values import PowerBand, TuneFigures


class Range(Value):
    """A low, typical and high figure that is not money."""

    low: float
    typical: float
    high: float


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
    season_use: float | None = None
    """The season usual in this duty, in `cost_unit`: what `cost_per_season` is for."""
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
    oversold: bool = False
    """Opened so often in this season that nobody would sell it so; `attention` says why, and what instead."""

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
