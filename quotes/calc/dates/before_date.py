"""What can be said about a job that is needed on a day: does it fit before, and if not, what is full."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quotes.calc.dates.open_days import open_days_of_week
from quotes.calc.dates.slots import NOTHING, Bench, Promise, Slot


@dataclass(frozen=True, slots=True)
class BeforeDate:
    """The bench hours of the weeks that end before a day, and whether a job is ready by then."""

    needed_on: date
    there_is: Decimal
    promised: Decimal
    in_time: bool
    same_day: int
    """How many other jobs in hand are needed on the very same day."""

    @property
    def free(self) -> Decimal:
        return self.there_is - self.promised

    @property
    def full(self) -> bool:
        return self.free <= NOTHING


def before_date(
    bench: Bench, slot: Slot | None, needed_on: date, promises: tuple[Promise, ...] = ()
) -> BeforeDate:
    """How the weeks before a day stand. In time means ready at the latest on the day before."""
    there_is = promised = NOTHING
    for week in bench.weeks:
        days = open_days_of_week(week.monday, bench.closed_days)
        if days and days[-1] < needed_on:
            there_is += week.there_is
            promised += week.promised
    return BeforeDate(
        needed_on=needed_on,
        there_is=there_is,
        promised=promised,
        in_time=slot is not None and slot.ready_on < needed_on,
        same_day=sum(1 for promise in promises if promise.needed_on == needed_on),
    )
