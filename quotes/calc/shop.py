"""What the sums need to know of the workshop: rates, rules, taxes, its calendar and its queue."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

LineKind = Literal["labour", "part", "machine_work", "consumables"]
LINE_KINDS: tuple[LineKind, ...] = ("labour", "part", "machine_work", "consumables")


@dataclass(frozen=True, slots=True)
class TaxComponent:
    """One layer of a tax code: a value-added tax has one, a sales tax has state and local ones."""

    name: str
    rate_pct: Decimal


@dataclass(frozen=True, slots=True)
class TaxCode:
    """A category of EN 16931 (S, Z, E, AE, K, G, O) with its rate, in one or more components."""

    code: str
    category: str
    components: tuple[TaxComponent, ...]
    reason: str = ""
    """Why nothing is charged, where nothing is."""

    @property
    def rate_pct(self) -> Decimal:
        return sum((part.rate_pct for part in self.components), Decimal(0))


@dataclass(frozen=True, slots=True)
class TaxRate:
    """A tax code as it holds from a day on, until the next begins; None: from the beginning."""

    valid_from: date | None
    code: TaxCode


@dataclass(frozen=True, slots=True)
class MarkupBand:
    """From this cost upward the markup is `markup_pct`, until the next band begins."""

    cost_from: Decimal
    markup_pct: Decimal


@dataclass(frozen=True, slots=True)
class ConsumablesRule:
    """Workshop consumables: a share of labour, between a least and a most per job."""

    labour_pct: Decimal
    least: Decimal
    most: Decimal


@dataclass(frozen=True, slots=True)
class DepositRule:
    """What is asked at the yes: a share of the gross sum."""

    gross_pct: Decimal


@dataclass(frozen=True, slots=True)
class ClassRule:
    """A racing class and what it allows: any of compression, cams, porting, weight."""

    code: str
    name: str
    allows: frozenset[str]


@dataclass(frozen=True, slots=True)
class Queue:
    """The workshop's calendar and the work already promised."""

    bench_hours_a_day: Decimal
    hours_in_hand: Decimal
    """Bench hours of accepted jobs not yet done; they come first."""
    closed_days: frozenset[date]
    """Public holidays and the shop's own closed days. Saturdays and Sundays are always closed."""


@dataclass(frozen=True, slots=True)
class Shop:
    """The workshop's rules. Money in `currency`, rounded to `decimals` places."""

    currency: str
    decimals: int
    labour_rates: Mapping[str, Decimal]
    """Per hour, by kind of work: office, strip, clean, inspect, assemble, test."""
    markup_bands: tuple[MarkupBand, ...]
    cap_at_list: bool
    machine_work_markup_pct: Decimal
    consumables: ConsumablesRule
    deposit: DepositRule
    tax_codes: Mapping[str, TaxCode]
    taxability: Mapping[LineKind, str]
    """Tax code by line kind."""
    prices_include_tax_in_talk: bool
    queue: Queue
    quote_validity_days: int
    limit_without_asking_pct: Decimal
    hours_spread_pct: Decimal
    """How far hours may be off before the strip-down, either way."""
    classes: Mapping[str, ClassRule]
    shop_factor: float = 1.0
    """Scales every hazard to the shop's own record."""
    assembly_fault_chance: float = 0.0005
    """Per assembly operation; from memory, the owner's to set."""
    rider_safety_ceiling: float = 0.05
    """Most that parts which can lock the wheel or oil the tyre may add up to, over the planned service."""
    chance_floor: float = 0.90
    """An engine is good for as long as its chance stays above this."""
    refuses_unsafe: bool = False
    """Whether the owner has said: we do not build it without its rider-safety lines."""
    fault_cost: Decimal = Decimal(1500)
    """What a fault of our own costs to put right; from memory, the owner's to set."""
    session_loss: Decimal = Decimal(150)
    """What a lost session costs the customer; from memory, the owner's to set."""
    weekend_loss: Decimal = Decimal(800)
    """What a lost weekend costs him: entry, travel, nights; from memory, the owner's to set."""
    renew_policy_parts: bool = False
    """Whether parts whose re-use is the shop's choice are always renewed when disturbed."""
    distance_unit: Literal["mi", "km"] = "mi"
