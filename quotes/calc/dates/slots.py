"""The bench week by week: hours there are, hours promised, and where a job of some hours fits.

Hours are bench hours (Decimal); a week is named by its Monday. Nothing here rounds: hours only add up.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from quotes.calc.dates.open_days import (
    WORKING_DAYS,
    add_open_days,
    monday_of,
    open_day_before,
    open_day_from,
    open_days_of_week,
)

SLACK_WEEKS = 1
"""How many weeks longer than in an empty workshop a job may lie on the bench; from memory. Without it,
two free hours before ten full weeks would count as a start and leave the engine in pieces."""
HORIZON_WEEKS = 78
"""How far ahead the bench is laid out: a season and a half."""
NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Promise:
    """Bench hours of one job in hand. `week` is the Monday it was promised; None means as soon as can be."""

    hours: Decimal
    week: date | None = None
    needed_on: date | None = None


@dataclass(frozen=True, slots=True)
class Week:
    """One week on the bench, in hours."""

    monday: date
    there_is: Decimal
    promised: Decimal = NOTHING

    @property
    def free(self) -> Decimal:
        return self.there_is - self.promised

    @property
    def closed(self) -> bool:
        return self.there_is == NOTHING


@dataclass(frozen=True, slots=True)
class Bench:
    """The weeks from a day on with every promise laid into them."""

    on: date
    weeks: tuple[Week, ...]
    closed_days: Collection[date]
    beyond: Decimal
    """Promised hours that found no room before the last week."""


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a job lies: it begins in the week of `start`, its bench hours end in the week of `finish`."""

    start: date
    finish: date
    hours_by_week: tuple[tuple[date, Decimal], ...]
    arrive_by: date
    """The engine must be in the shop on this day at the latest: the open day before the bench begins."""
    ready_on: date
    """Last open day of the finishing week, or later where parts and machine work take longer."""


def hours_a_day(hours_a_week: Decimal) -> Decimal:
    """Bench hours of one open day, where a week without a holiday has `hours_a_week` to promise."""
    return hours_a_week / WORKING_DAYS


def lay_out(
    on: date,
    a_day: Decimal,
    closed_days: Collection[date],
    promises: Iterable[Promise],
    weeks: int = HORIZON_WEEKS,
) -> Bench:
    """The bench from the week of `on`, of `a_day` hours, with the promises in the order they were made.

    Who was promised first keeps their place. What does not fit into its week goes into the next with room; a
    promise of a week gone by begins now. Of the week that has begun only the days from `on` count.
    """
    first = monday_of(on)
    laid: list[Week] = []
    for index in range(weeks):
        monday = first + timedelta(weeks=index)
        days = [day for day in open_days_of_week(monday, closed_days) if day >= on]
        laid.append(Week(monday, a_day * len(days)))
    beyond = NOTHING
    for promise in promises:
        beyond += _lay(laid, promise.hours, promise.week or first)
    return Bench(on, tuple(laid), closed_days, beyond)


def _lay(laid: list[Week], hours: Decimal, from_week: date) -> Decimal:
    """Put hours into the free places from a week on; what found none is returned."""
    left = hours
    for index, week in enumerate(laid):
        if left == NOTHING:
            break
        if week.monday >= from_week and week.free > NOTHING:
            put = min(left, week.free)
            laid[index] = replace(week, promised=week.promised + put)
            left -= put
    return left


def hours_before_room(bench: Bench) -> Decimal:
    """Promised hours that come before a new job: all up to the first week that still has a free hour.

    A promise of a week far off does not delay a job that is done before it.
    """
    hours = NOTHING
    for week in bench.weeks:
        hours += week.promised
        if week.free > NOTHING:
            return hours
    return hours + bench.beyond


def earliest_slot(
    bench: Bench, hours: Decimal, *, not_before: date | None = None, lead_days: int = 0
) -> Slot | None:
    """The first week in which a job of `hours` can begin; None if there is none this side of the horizon.

    `not_before`: the engine can't come in sooner. `lead_days`: open days from the start until the slowest
    part or machine work is there; the engine is not ready sooner. ValueError unless `hours` is above 0.
    """
    if hours <= NOTHING:
        raise ValueError(f"a job has more than no hours, not {hours}")
    first = monday_of(not_before) if not_before else date.min
    for index, week in enumerate(bench.weeks):
        if week.monday >= first and (slot := _slot_at(bench, index, hours, lead_days)):
            return slot
    return None


def next_slot(bench: Bench, hours: Decimal, *, lead_days: int = 0) -> Slot | None:
    """The earliest slot that is offered on the phone: the engine has to travel, so not this week."""
    return earliest_slot(bench, hours, not_before=bench.on + timedelta(weeks=1), lead_days=lead_days)


def slot_in_week(bench: Bench, monday: date, hours: Decimal, *, lead_days: int = 0) -> Slot | None:
    """The slot that begins in one week, or None where the job can't begin there."""
    if hours <= NOTHING:
        raise ValueError(f"a job has more than no hours, not {hours}")
    for index, week in enumerate(bench.weeks):
        if week.monday == monday:
            return _slot_at(bench, index, hours, lead_days)
    return None


def _slot_at(bench: Bench, index: int, hours: Decimal, lead_days: int) -> Slot | None:
    weeks = bench.weeks[index:]
    if weeks[0].free <= NOTHING:
        return None
    taken = _take([(week.monday, week.free) for week in weeks], hours)
    alone = _take([(week.monday, week.there_is) for week in weeks], hours)
    if not taken or not alone or taken[-1][0] - alone[-1][0] > timedelta(weeks=SLACK_WEEKS):
        return None
    start, finish = taken[0][0], taken[-1][0]
    begins = open_day_from(max(start, bench.on), bench.closed_days)
    before = open_day_before(begins, bench.closed_days)
    return Slot(
        start=start,
        finish=finish,
        hours_by_week=tuple(taken),
        arrive_by=before if before >= bench.on else begins,
        ready_on=max(
            open_days_of_week(finish, bench.closed_days)[-1],
            add_open_days(begins, lead_days, bench.closed_days),
        ),
    )


def _take(room: Sequence[tuple[date, Decimal]], hours: Decimal) -> list[tuple[date, Decimal]]:
    """Hours taken week by week until the job is done; nothing where the weeks end first."""
    taken: list[tuple[date, Decimal]] = []
    left = hours
    for monday, free in room:
        put = min(left, free)
        if put > NOTHING:
            taken.append((monday, put))
            left -= put
        if left == NOTHING:
            return taken
    return []
