"""When a job on the bench is ready, worked out again from what is here and what is still to come.

What has arrived is certain. What is ordered or out comes as its dates say: the expected day is its median and
the slow day its 90 % point. What is not ordered yet has its supplier's lead from today on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue, LeadTime, MachineWork, Part
from catalogue.calc.said import say, say_count
from quotes.calc.bench.said import exact
from quotes.calc.dates.arrival import PARTS_SENT_ALONG, Sent, sent_out, shipments_of, slowest
from quotes.calc.dates.schedule import BEFORE_PARTS, BenchHours, Schedule, schedule, working_days_until
from quotes.calc.sheet.base_values import Ready
from quotes.calc.shop import Queue
from quotes.calc.work.work_set import NO_HOURS, operation_of

LATE = 1.0
"""What is overdue is thought to come tomorrow: nothing else is known of it."""


@dataclass(frozen=True, slots=True)
class OnTheWay:
    """A delivery, or machine work, that is awaited. `promised_on` is a new day that the supplier gave.

    `components` are those it brings; `what` is how it is named to a reader.
    """

    what: str
    source: str
    expected_on: date
    slow_on: date
    promised_on: date | None = None
    components: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Ahead:
    """All that is still ahead of a job.

    `hours` are its own that are left, `queue` what the bench does first. `to_order` are articles not ordered
    yet, `to_send` machine work that has not gone out.
    """

    hours: BenchHours
    queue: Queue
    on_the_way: tuple[OnTheWay, ...] = ()
    out: tuple[OnTheWay, ...] = ()
    to_order: tuple[Part, ...] = ()
    to_send: tuple[MachineWork, ...] = ()
    stopped: bool = False
    """Whether it waits for the customer's word, for as long as he likes."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """The dates of a job as things stand, and the chance of the day that was promised."""

    ready: Ready
    promised_on: date | None
    chance_by_promised: float | None
    slowest: str
    """What is most likely to come last; empty where nothing is awaited."""
    waits: tuple[str, ...] = field(default=())

    @property
    def late(self) -> bool:
        """Whether the day now promised (8 in 10) is after the one that the customer was told."""
        return self.promised_on is not None and self.ready.p80 > self.promised_on


def lead_left(one: OnTheWay, on: date, closed_days: Collection[date]) -> LeadTime:
    """Working days from `on` until it is here. A new promise moves the median and keeps the spread."""
    expected = one.promised_on or one.expected_on
    spread = working_days_until(one.expected_on, max(one.slow_on, one.expected_on), closed_days)
    typical = float(working_days_until(on, expected, closed_days))
    if typical == 0:
        typical = LATE
    return LeadTime(typical, typical + spread)


def hours_left(
    catalogue: EngineCatalogue, operations: Iterable[str], clocked: Mapping[str, Decimal], *, stripped: bool
) -> BenchHours:
    """Standard hours of a job less what was clocked on each operation, never under nought.

    Once it is stripped nothing of the strip-down is left, whatever the clock says.
    """
    left = {True: NO_HOURS, False: NO_HOURS}
    for code in operations:
        if code in catalogue.operations:
            operation = operation_of(catalogue, code)
            rest = max(operation.hours - clocked.get(code, NO_HOURS), NO_HOURS)
            left[operation.kind in BEFORE_PARTS] += rest
    return BenchHours(NO_HOURS if stripped else left[True], left[False])


def laid_out(on: date, ahead: Ahead) -> Schedule:
    """The job laid into the calendar from today on."""
    closed = ahead.queue.closed_days
    shipments = _shipments(on, ahead)
    sent = [_with_its_parts(work, ahead) for work in ahead.to_send]
    for row in ahead.out:
        shipments[f"out:{row.what}"] = lead_left(row, on, closed)
    return schedule(on, ahead.queue, ahead.hours, shipments, sent)


def _shipments(on: date, ahead: Ahead) -> dict[str, LeadTime]:
    """One shipment for each order, and for each supplier that is to be ordered from."""
    leads: dict[str, list[LeadTime]] = {}
    for row in ahead.on_the_way:
        leads.setdefault(row.source, []).append(lead_left(row, on, ahead.queue.closed_days))
    found = {source: slowest(each) for source, each in leads.items()}
    return found | {f"to order:{name}": lead for name, lead in shipments_of(ahead.to_order).items()}


def _with_its_parts(work: MachineWork, ahead: Ahead) -> Sent:
    """Machine work to be sent, waiting for those of its parts that are not here yet."""
    (sent,) = sent_out((work,), ()).values()
    along = {code for one in PARTS_SENT_ALONG if one.machine_work == work.code for code in one.components}
    awaits = {row.source for row in ahead.on_the_way if row.components & along}
    awaits |= {f"to order:{part.supplier}" for part in ahead.to_order if part.component in along}
    return Sent(sent.lead, frozenset(awaits))


def outlook(on: date, ahead: Ahead, promised_on: date | None) -> Outlook:
    """When the job is ready as things stand on a day, and how that compares with what was promised."""
    laid = laid_out(on, ahead)
    rows = [*ahead.on_the_way, *ahead.out]
    last = max(rows, key=lambda row: (row.promised_on or row.expected_on, row.what), default=None)
    return Outlook(
        ready=laid.ready(),
        promised_on=promised_on,
        chance_by_promised=laid.chance_by(promised_on) if promised_on else None,
        slowest=last.what if last else "",
        waits=_waits(ahead),
    )


def _waits(ahead: Ahead) -> tuple[str, ...]:
    """What stands between the job and its day, in words."""
    said = [*_counted(ahead)]
    hours = ahead.hours.strip + ahead.hours.assembly
    said += [say("{hours} h on the bench", hours=exact(hours.normalize()))] if hours else []
    return (*said, say("the customer's answer to extra work")) if ahead.stopped else tuple(said)


def _counted(ahead: Ahead) -> Iterator[str]:
    if count := len(ahead.to_order):
        yield say_count("{count} article to be ordered", "{count} articles to be ordered", count)
    if count := len(ahead.on_the_way):
        yield say_count("{count} delivery awaited", "{count} deliveries awaited", count)
    if count := len(ahead.to_send):
        yield say_count("{count} machine work to be sent out", "{count} machine works to be sent out", count)
    if count := len(ahead.out):
        yield say_count("{count} machine work out", "{count} machine works out", count)
