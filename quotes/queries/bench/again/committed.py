"""What a build is committed to, what of it is spent, and which work waits for the customer's word."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say, say_figure
from quotes.calc.bench.again.branch import stopped_work
from quotes.calc.bench.again.committed import Committed
from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, ExtraWork, ExtraWorkState, Job, OrderEvent, WorkedHours, WorksOrder
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.engines import known_catalogue
from quotes.queries.sheets import sheet_of
from quotes.queries.workshop import labour_rates


def committed_of(build: Acceptance, extra_work: Iterable[ExtraWork] | None = None) -> Committed:
    """The build's sums against its limit; `extra_work` where it was read already."""
    rows = list(ExtraWork.objects.filter(build=build)) if extra_work is None else list(extra_work)
    return Committed(
        accepted=build.gross,
        extra_accepted=_together(rows, ExtraWorkState.ACCEPTED),
        within=tuple(row.gross for row in rows if row.state == ExtraWorkState.WITHIN),
        limit=build.limit_sum,
        waiting=_together(rows, ExtraWorkState.OFFERED),
    )


def _together(rows: Iterable[ExtraWork], state: str) -> Decimal:
    return sum((row.gross for row in rows if row.state == state), ZERO)


def promised_on(build: Acceptance) -> date | None:
    """The day promised at the yes, or by the latest extra work accepted that moved it."""
    return promised_by(build, ExtraWork.objects.filter(build=build).agreed().order_by("index"))


def promised_by(build: Acceptance, agreed: Iterable[ExtraWork]) -> date | None:
    """The same from the extra work agreed, in order, where it was read already."""
    moved = [row.new_ready_on for row in agreed if row.new_ready_on]
    return moved[-1] if moved else build.ready_on


def stopped_by(build: Acceptance, components: Collection[str]) -> tuple[str, ...]:
    """Operations of the build that wait while these components are asked about; none where none is named."""
    if not components:
        return ()
    comparison = sheet_of(build.revision).comparison
    catalogue = known_catalogue(comparison.engine_type)
    if catalogue is None:
        return ()
    return stopped_work(catalogue, comparison.option(build.tier).operations, components)


def stopped_operations(build: Acceptance) -> dict[str, ExtraWork]:
    """Operations that may not go on, each with the extra work that waits for an answer."""
    waiting = ExtraWork.objects.filter(build=build).waiting().select_related("build__quote").order_by("index")
    stopped: dict[str, ExtraWork] = {}
    for row in waiting:
        for operation in row.stops:
            stopped.setdefault(operation, row)
    return stopped


@dataclass(frozen=True, slots=True)
class Spent:
    """What has been used up so far, at what it costs the customer before tax, as far as it is known."""

    labour: Decimal
    parts: Decimal
    machine_work: Decimal

    @property
    def total(self) -> Decimal:
        return self.labour + self.parts + self.machine_work


def spent_of(build: Acceptance, decimals: int) -> Spent:
    """Hours clocked at their rates, parts received and machine work back, at the accepted prices."""
    option = accepted_option(build)
    return Spent(
        labour=round_half_up(_labour(build, option), decimals),
        parts=round_half_up(_parts(build, option), decimals),
        machine_work=round_half_up(_machine_work(build, option), decimals),
    )


def _labour(build: Acceptance, option: Option) -> Decimal:
    kinds = {step.code: step.kind for step in option.work}
    rates = labour_rates()
    rows = WorkedHours.objects.of_build(build.pk).values_list("operation", "hours")
    return sum((hours * rates[kinds.get(code, "assemble")] for code, hours in rows), ZERO)


def _parts(build: Acceptance, option: Option) -> Decimal:
    prices = {f"option:{line.key}": line.unit_price for line in option.lines}
    received = OrderEvent.objects.filter(line__build=build, kind="received")
    rows = received.values_list("quantity", "line__line_key", "line__unit_cost")
    return sum((quantity * prices.get(key, cost) for quantity, key, cost in rows), ZERO)


def _machine_work(build: Acceptance, option: Option) -> Decimal:
    prices = {line.code: line.unit_price for line in option.lines if line.kind == "machine_work"}
    back = WorksOrder.objects.filter(job__quote=build.quote_id, back_on__isnull=False)
    rows = back.values_list("machine_work", "quantity", "cost", "expected_cost")
    return (
        sum(
            (quantity * prices[code] if code in prices else cost or expected)
            for code, quantity, cost, expected in rows
        )
        or ZERO
    )


def job_line(job: Job, on: date) -> JobLine | None:
    """Extra work on the job's page: how many offers wait, and what is left of the limit."""
    if job.quote is None or job.quote.accepted_at is None:
        return None
    build = job.quote.acceptance
    rows = list(ExtraWork.objects.filter(build=build))
    waiting = [row for row in rows if row.state == ExtraWorkState.OFFERED]
    left = committed_of(build, rows).left
    words = say("{count} offered", count=len(rows)) if rows else say("none so far")
    if waiting:
        words = say("{waiting} waiting for the customer's word, {words}", waiting=len(waiting), words=words)
    return JobLine(
        title=say("Extra work"),
        words=say("{words}; {left} may still be spent without asking", words=words, left=say_figure(left, 2)),
        url_name="extra-work-list",
        args=(build.pk,),
        waits=bool(waiting),
    )
