"""The ready date opened: the queue, the strip-down, shipments and machine work, and the bench."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from catalogue.calc.engine import LeadTime
from quotes.calc.dates.arrival import Sent, sent_out, shipments_of
from quotes.calc.dates.schedule import EVEN, NEARLY_SURE, PROMISED, Schedule, bench_hours, schedule
from quotes.calc.origin.job import Job
from quotes.calc.origin.values import Origin, hours, number

_CHANCES = ((EVEN, "even chance"), (PROMISED, "promised, 8 in 10"), (NEARLY_SURE, "nearly sure, 9 in 10"))
FIRST = (
    "Working days of the workshop from the day of the quote: parts are ordered then, machine work leaves "
    "once the engine is stripped, and assembly begins when all is there."
)
AHEAD = (
    "Working days of the workshop from the day of the opening: its parts were ordered ahead and lie ready, "
    "machine work leaves once the engine is stripped, and assembly begins when all is there."
)


def ready(job: Job) -> Origin:
    """By when the job is promised, eight in ten."""
    plan, case = job.plan, job.case
    found = (case.part(code) for code in (*plan.bought, *plan.singly))
    parts = sorted((part for part in found if part is not None), key=lambda part: part.number)
    work = [job.catalogue.machine_work[code] for code in plan.machine_work]
    heaps = bench_hours(job.catalogue, plan.operations)
    shipments, sent = {} if job.planned_ahead else shipments_of(parts), sent_out(work, parts)
    queue = replace(job.shop.queue, hours_in_hand=Decimal(0)) if job.planned_ahead else job.shop.queue
    laid = schedule(job.on, queue, heaps, shipments, sent.values())
    return Origin(
        "Ready",
        f"{laid.date_for(PROMISED):%d %b %Y}, 8 in 10",
        AHEAD if job.planned_ahead else FIRST,
        parts=(
            _queue(job, laid),
            _strip_down(heaps.strip, laid),
            *(_parts(supplier, lead) for supplier, lead in shipments.items()),
            *(_sent(vendor, each) for vendor, each in sent.items()),
            Origin("Assembly and test", hours(heaps.assembly), f"{number(laid.assembly_days, 1)} days."),
            *(_by(laid, share, words) for share, words in _CHANCES),
        ),
        key=job.key("ready"),
    )


def _queue(job: Job, laid: Schedule) -> Origin:
    if job.planned_ahead:
        return Origin(
            "Bench hours already promised", hours(Decimal(0)), "The queue of that day is not yet known."
        )
    return Origin(
        "Bench hours already promised", hours(laid.queue.hours_in_hand), source="the workshop's queue"
    )


def _days(typical: float, slow: float) -> str:
    return f"{number(typical, 1)} working days, 9 in 10 within {number(slow, 1)}"


def _strip_down(needed: Decimal, laid: Schedule) -> Origin:
    return Origin(
        "Strip-down, clean, inspect",
        hours(needed),
        f"With the queue before it done by working day {number(laid.arrival.stripped, 1)}, at "
        f"{hours(laid.queue.bench_hours_a_day)} a day.",
    )


def _parts(supplier: str, lead: LeadTime) -> Origin:
    return Origin(
        f"Parts from {supplier}",
        _days(lead.typical_days, lead.slow_days),
        "As slow as the slowest part of the shipment.",
        "the price list",
    )


def _sent(vendor: str, sent: Sent) -> Origin:
    waits = f"It waits for parts from {', '.join(sorted(sent.awaits))}." if sent.awaits else ""
    return Origin(
        f"Sent to {vendor} and back",
        _days(sent.lead.typical_days, sent.lead.slow_days),
        waits,
        "the catalogue of machine work",
    )


def _by(laid: Schedule, share: float, words: str) -> Origin:
    there = number(max(laid.arrival.day(share), laid.arrival.stripped), 1)
    return Origin(
        f"Ready, {words}",
        f"{laid.date_for(share):%d %b %Y}",
        f"All is there by working day {there}; with assembly working day {laid.days_for(share)}.",
    )
