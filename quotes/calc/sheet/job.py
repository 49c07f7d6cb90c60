"""One job of an option, the first or that of an opening: what it comes to and when it is ready."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.money import round_half_up
from quotes.calc.dates.arrival import sent_out, shipments_of
from quotes.calc.dates.schedule import bench_hours, ready_dates
from quotes.calc.money.totals import Totals
from quotes.calc.scope.decide import Scope
from quotes.calc.sheet.base_values import Ready, Spread
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.sheet_lines import if_needed_sum
from quotes.calc.shop import Queue


def job_sums(scope: Scope, if_needed: tuple[Line, ...]) -> Totals:
    """The sums, the high end of their band with what is priced and not included; nothing once stripped."""
    sums, extra = scope.pricing.totals(scope.plan), if_needed_sum(if_needed)
    if scope.case.request.stripped or not extra:
        return sums
    rate = max((group.rate_pct for group in sums.groups), default=Decimal(0))
    tax = round_half_up(extra * rate / 100, scope.case.shop.decimals)
    return Totals(
        net=_higher(sums.net, extra),
        tax=_higher(sums.tax, tax),
        gross=_higher(sums.gross, extra + tax),
        groups=sums.groups,
    )


def _higher(spread: Spread, extra: Decimal) -> Spread:
    return spread.model_copy(update={"high": spread.high + extra})


def job_ready(scope: Scope, on: date, queue: Queue, *, parts_at_hand: bool = False) -> Ready:
    """The three dates: queue, strip-down, parts and machine work, then the bench.

    For an opening that was planned parts are ordered in time and lie ready.
    """
    case, plan = scope.case, scope.plan
    found = (case.part(code) for code in (*plan.bought, *plan.singly))
    parts = [part for part in found if part is not None]
    work = [case.catalogue.machine_work[code] for code in plan.machine_work]
    hours = bench_hours(case.catalogue, plan.operations)
    return ready_dates(
        on,
        queue,
        hours.strip,
        hours.assembly,
        {} if parts_at_hand else shipments_of(sorted(parts, key=lambda part: part.number)),
        sent_out(work, parts).values(),
    )
