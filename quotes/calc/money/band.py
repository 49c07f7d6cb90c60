"""The band that is said on the phone: never a price, and rounded so that it can be said."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import HUNDRED
from catalogue.calc.said import to_say
from quotes.calc.sheet.base_values import Spread

SUBJECT_TO = to_say("subject to strip-down")


@dataclass(frozen=True, slots=True)
class SpokenRule:
    """How far a spoken band reaches at least round the typical sum, and what it is rounded to."""

    under_pct: Decimal = Decimal(10)
    over_pct: Decimal = Decimal(20)
    """Ten under and twenty over: from memory, the owner's to set."""
    round_to: Decimal = HUNDRED


@dataclass(frozen=True, slots=True)
class SpokenBand:
    """Two sums with tax, in the shop's currency."""

    low: Decimal
    high: Decimal


def spoken_band(gross: Spread, rule: SpokenRule) -> SpokenBand:
    """The worked band with tax, widened to the shop's rule and rounded outward; `low` is never below 0."""
    low = min(gross.low, gross.typical * (HUNDRED - rule.under_pct) / HUNDRED)
    high = max(gross.high, gross.typical * (HUNDRED + rule.over_pct) / HUNDRED)
    return SpokenBand(max(_down_to(low, rule.round_to), Decimal(0)), _up_to(high, rule.round_to))


def _down_to(amount: Decimal, step: Decimal) -> Decimal:
    return amount - amount % step


def _up_to(amount: Decimal, step: Decimal) -> Decimal:
    rest = amount % step
    return amount if rest == 0 else amount - rest + step
