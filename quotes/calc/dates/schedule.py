"""When a job is ready: the shop's queue, then strip-down, then parts and machine work, then bench hours.

Dates are working days of the workshop. Bench hours are done at the shop's hours a day; what is in hand comes
first. Parts are ordered on the day the job is agreed; machine work leaves once the engine is stripped.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import get_args

from catalogue.calc.engine import EngineCatalogue, KindOfWork, LeadTime
from quotes.calc.dates.arrival import Arrival, Sent
from quotes.calc.dates.open_days import add_open_days, is_open, open_day_from
from quotes.calc.sheet.base_values import Ready
from quotes.calc.shop import Queue
from quotes.calc.work.work_set import NO_HOURS, hours_by_kind

EVEN = 0.5
PROMISED = 0.8
NEARLY_SURE = 0.9
BEFORE_PARTS: tuple[KindOfWork, ...] = ("office", "strip", "clean", "inspect")
"""Work that needs no new part: it is done while the parts are on their way."""
HAIR = 1e-9
"""Slack of a day when bench days are taken off again: 1.4 and 0.6 are two, whatever binary says."""


@dataclass(frozen=True, slots=True)
class BenchHours:
    """Bench hours of a job before the parts are needed, and after."""

    strip: Decimal
    assembly: Decimal


def bench_hours(catalogue: EngineCatalogue, operations: Iterable[str]) -> BenchHours:
    """The hours of a job in two heaps: BEFORE_PARTS, and assembling and testing."""
    by_kind = hours_by_kind(catalogue, operations)
    heaps = {True: NO_HOURS, False: NO_HOURS}
    for kind in get_args(KindOfWork):
        heaps[kind in BEFORE_PARTS] += by_kind.get(kind, NO_HOURS)
    return BenchHours(strip=heaps[True], assembly=heaps[False])


def add_working_days(on: date, days: int, closed_days: Collection[date]) -> date:
    """The working day that lies `days` working days after `on`; 0 is `on`, or the next day that is open.

    Raises ValueError for a negative number.
    """
    if days < 0:
        raise ValueError(f"working days are counted forward, not {days}")
    return add_open_days(on, days, closed_days) if days else open_day_from(on, closed_days)


def working_days_until(on: date, until: date, closed_days: Collection[date]) -> int:
    """Working days after `on`, up to `until` and with it; 0 where `until` is not later."""
    days = (on + timedelta(days=number) for number in range(1, (until - on).days + 1))
    return sum(is_open(day, closed_days) for day in days)


@dataclass(frozen=True, slots=True)
class Schedule:
    """One job laid into the queue: working days to the strip-down's end, arrival, and days on the bench."""

    on: date
    queue: Queue
    arrival: Arrival
    assembly_days: float

    def days_for(self, chance: float) -> int:
        """Working days from `on` until the job is ready with this chance."""
        there = max(self.arrival.day(chance), self.arrival.stripped)
        return math.ceil(there + self.assembly_days)

    def date_for(self, chance: float) -> date:
        """The date by which the job is ready with this chance (between 0 and 1): later the surer."""
        return add_working_days(self.on, self.days_for(chance), self.queue.closed_days)

    def chance_by(self, day: date) -> float:
        """The chance that the job is ready by the end of a day."""
        left = working_days_until(self.on, day, self.queue.closed_days) - self.assembly_days + HAIR
        return self.arrival.chance(left) if left >= self.arrival.stripped else 0.0

    def ready(self) -> Ready:
        return Ready(typical=self.date_for(EVEN), p80=self.date_for(PROMISED), p90=self.date_for(NEARLY_SURE))


def schedule(
    on: date,
    queue: Queue,
    hours: BenchHours,
    shipments: Mapping[str, LeadTime],
    sent: Iterable[Sent] = (),
) -> Schedule:
    """Lay a job into the queue. Raises ValueError where the shop has no bench hours a day."""
    if queue.bench_hours_a_day <= 0:
        raise ValueError(f"a workshop of {queue.bench_hours_a_day} bench hours a day is never ready")
    stripped = float((queue.hours_in_hand + hours.strip) / queue.bench_hours_a_day)
    assembly = float(hours.assembly / queue.bench_hours_a_day)
    return Schedule(on, queue, Arrival(shipments, sent, stripped), assembly)


def ready_dates(
    on: date,
    queue: Queue,
    strip_hours: Decimal,
    assembly_hours: Decimal,
    shipments: Mapping[str, LeadTime],
    sent: Iterable[Sent] = (),
) -> Ready:
    """The three dates of a job: even chance, promised (8 in 10), nearly sure (9 in 10).

    `shipments` by supplier (see `shipments_of`), `sent` to outside shops (see `sent_out`).
    """
    return schedule(on, queue, BenchHours(strip_hours, assembly_hours), shipments, sent).ready()
