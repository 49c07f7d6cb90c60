"""What the workshop's own record offers in place of a standard: hours of an operation, and lead times.

Nothing changes by itself: the owner sees both and decides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import median

from catalogue.calc.money import round_half_up

LAST = 9
"""So many recent jobs count; common practice, no source."""
LEAST = 3
"""Of fewer jobs nothing is offered."""
OUTLIER = 2.0
"""A job that took more than so many times the median, or less than its inverse, is looked at by hand."""


@dataclass(frozen=True, slots=True)
class OfferedHours:
    """Standard hours against the median of those clocked on the last jobs; `outliers` are jobs to look at."""

    operation: str
    standard: Decimal
    median: Decimal
    jobs: int
    outliers: tuple[Decimal, ...]

    @property
    def change_pct(self) -> float:
        """How far the record is from the standard, in per cent of it; 0 where the standard is nought."""
        return float(100 * (self.median - self.standard) / self.standard) if self.standard else 0.0


def offered_hours(operation: str, standard: Decimal, clocked: Sequence[Decimal]) -> OfferedHours | None:
    """From hours clocked per job, the latest last; None where too few jobs have been clocked."""
    recent = list(clocked)[-LAST:]
    if len(recent) < LEAST:
        return None
    middle = round_half_up(Decimal(median(recent)))
    odd = tuple(h for h in recent if middle and not 1 / OUTLIER <= float(h / middle) <= OUTLIER)
    return OfferedHours(operation, standard, middle, len(recent), odd)


@dataclass(frozen=True, slots=True)
class OfferedLead:
    """A supplier's working days from order to arrival: the median and the 9 in 10 of the last deliveries."""

    supplier: str
    median_days: float
    slow_days: float
    deliveries: int


def offered_lead(supplier: str, days: Sequence[int]) -> OfferedLead | None:
    """From working days of each delivery, the latest last; None where there are too few."""
    recent = sorted(list(days)[-3 * LAST :])
    if len(recent) < LEAST:
        return None
    slow = recent[min(len(recent) - 1, math.ceil(0.9 * len(recent)) - 1)]
    return OfferedLead(supplier, float(median(recent)), float(slow), len(recent))
