"""Where each article of a build stands: ordered, here or from the shelf, and what is still to order."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.bench.parts.measured_fit import StandingReading, Waits
from quotes.calc.bench.parts.packing import Offered, SoldAs, order_by
from quotes.calc.bench.parts.picking import Pick
from quotes.calc.bench.parts.pieces import Standing, plain
from quotes.calc.dates.open_days import open_day_before
from quotes.calc.dates.schedule import BenchHours
from quotes.calc.shop import Queue

LineOf = tuple[str, str]
"""The key of the accepted line, and the component: an extra's key has several articles."""


@dataclass(frozen=True, slots=True)
class Need:
    """One article of one build. `ordered` counts what is still ours: neither cancelled nor gone back.

    `order_by` is the last day to order what is missing of it; None where nothing is.
    """

    pick: Pick
    offer: Offered | None
    ordered: Decimal
    here: Decimal
    from_stock: Decimal
    fit: StandingReading | Waits | None
    needed_on: date | None
    order_by: date | None

    @property
    def to_order(self) -> Decimal:
        return max(self.pick.quantity - self.ordered - self.from_stock, ZERO)

    @property
    def complete(self) -> bool:
        return self.here + self.from_stock >= self.pick.quantity

    @property
    def waits(self) -> Waits | None:
        """The reading that it can't be ordered without."""
        return self.fit if isinstance(self.fit, Waits) else None

    @property
    def orderable(self) -> bool:
        return bool(self.to_order) and self.offer is not None and self.waits is None

    @property
    def sized_by(self) -> int | None:
        """The reading that its size is chosen by."""
        return self.fit.pk if isinstance(self.fit, StandingReading) else None

    def word(self) -> str:
        """How it stands, in a word or two that come first in its row."""
        if self.complete:
            return say("here")
        if not self.to_order:
            return say("ordered")
        if self.waits:
            return say("measure first")
        return say("to order") if self.offer else say("no supplier")

    def words(self) -> str:
        """How its pieces stand: `16 here`, `8 here, 8 ordered`."""
        counted = (
            (min(self.here, self.pick.quantity), to_say("{count} here")),
            (self.from_stock, to_say("{count} from the shelf")),
            (self.ordered - self.here, to_say("{count} ordered")),
            (self.to_order, to_say("{count} to order")),
        )
        return ", ".join(say(words, count=plain(count)) for count, words in counted if count > ZERO)


@dataclass(frozen=True, slots=True)
class Held:
    """What has been done about a build's articles so far, by the line they serve."""

    lines: Mapping[LineOf, tuple[Standing, ...]]
    from_stock: Mapping[str, Decimal]
    """By component."""


def needs(
    picks: Iterable[Pick],
    held: Held,
    offers: Mapping[SoldAs, Offered],
    fits: Mapping[str, StandingReading | Waits | None],
    *,
    needed_on: date | None,
    closed_days: Collection[date],
) -> tuple[Need, ...]:
    """Every article with what has been done about it. Stock goes to the first lines of its component."""
    shelf = dict(held.from_stock)
    found = []
    for pick in picks:
        rows = held.lines.get((pick.key, pick.component), ())
        ours = sum((row.ordered - row.of("cancelled") - row.of("returned") for row in rows), ZERO)
        taken = min(shelf.get(pick.component, ZERO), max(pick.quantity - ours, ZERO))
        shelf[pick.component] = shelf.get(pick.component, ZERO) - taken
        offer = offers.get((pick.part.supplier, pick.part.number)) if pick.part else None
        due = needed_on if pick.quantity - ours - taken > ZERO else None
        need = Need(
            pick=pick,
            offer=offer,
            ordered=ours,
            here=sum((row.of("received") for row in rows), ZERO),
            from_stock=max(taken, ZERO),
            fit=fits.get(pick.component),
            needed_on=needed_on,
            order_by=order_by(due, offer.lead, closed_days) if due and offer else None,
        )
        found.append(need)
    return tuple(found)


def needed_by(promised_on: date, hours: BenchHours, queue: Queue) -> date:
    """The working day by which parts must be here: the days of assembly before the promised one."""
    day = promised_on
    for _ in range(math.ceil(hours.assembly / queue.bench_hours_a_day) if queue.bench_hours_a_day else 0):
        day = open_day_before(day, queue.closed_days)
    return day


@dataclass(frozen=True, slots=True)
class Difference:
    """What an article costs beside what it was quoted at; `more` lessens the margin by as much."""

    description: str
    quantity: Decimal
    quoted: Decimal | None
    cost: Decimal
    why: str = ""

    @property
    def more(self) -> Decimal:
        return (self.cost - (self.quoted or ZERO)) * self.quantity


def together(differences: Iterable[Difference]) -> Decimal:
    """By how much the margin of a build is less than it was quoted at, before tax."""
    return sum((one.more for one in differences), ZERO)
