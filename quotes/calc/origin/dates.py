"""The ready date opened: the queue, the strip-down, shipments and machine work, and the bench."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from catalogue.calc.engine import LeadTime
from catalogue.calc.said import say, to_say
from quotes.calc.dates.arrival import Sent, sent_out, shipments_of
from quotes.calc.dates.schedule import EVEN, NEARLY_SURE, PROMISED, Schedule, bench_hours, schedule
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import Origin, hours, number, on_day

_CHANCES = (
    (EVEN, to_say("Ready, even chance")),
    (PROMISED, to_say("Ready, promised, 8 in 10")),
    (NEARLY_SURE, to_say("Ready, nearly sure, 9 in 10")),
)
FIRST = to_say(
    "Working days of the workshop from the day of the quote: parts are ordered then, machine work leaves "
    "once the engine is stripped, and assembly begins when all is there."
)
AHEAD = to_say(
    "Working days of the workshop from the day of the opening: its parts were ordered ahead and lie ready, "
    "machine work leaves once the engine is stripped, and assembly begins when all is there."
)


def ready(job: WorkedJob) -> Origin:
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
        say("Ready"),
        say("{day}, 8 in 10", day=on_day(laid.date_for(PROMISED))),
        say(AHEAD if job.planned_ahead else FIRST),
        parts=(
            _queue(job, laid),
            _strip_down(heaps.strip, laid),
            *(_parts(supplier, lead) for supplier, lead in shipments.items()),
            *(_sent(vendor, each) for vendor, each in sent.items()),
            _assembly(heaps.assembly, laid),
            *(_by(laid, share, words) for share, words in _CHANCES),
        ),
        key=job.key("ready"),
    )


def _queue(job: WorkedJob, laid: Schedule) -> Origin:
    title = say("Bench hours already promised")
    if job.planned_ahead:
        return Origin(title, hours(Decimal(0)), say("The queue of that day is not yet known."))
    return Origin(title, hours(laid.queue.hours_in_hand), source=say("the workshop's queue"))


def _assembly(needed: Decimal, laid: Schedule) -> Origin:
    return Origin(
        say("Assembly and test"),
        hours(needed),
        say("{count} days.", count=number(laid.assembly_days, 1)),
    )


def _days(typical: float, slow: float) -> str:
    return say(
        "{typical} working days, 9 in 10 within {slow}", typical=number(typical, 1), slow=number(slow, 1)
    )


def _strip_down(needed: Decimal, laid: Schedule) -> Origin:
    return Origin(
        say("Strip-down, clean, inspect"),
        hours(needed),
        say(
            "With the queue before it done by working day {day}, at {hours} a day.",
            day=number(laid.arrival.stripped, 1),
            hours=hours(laid.queue.bench_hours_a_day),
        ),
    )


def _parts(supplier: str, lead: LeadTime) -> Origin:
    return Origin(
        say("Parts from {supplier}", supplier=supplier),
        _days(lead.typical_days, lead.slow_days),
        say("As slow as the slowest part of the shipment."),
        say("the price list"),
    )


def _sent(vendor: str, sent: Sent) -> Origin:
    suppliers = ", ".join(sorted(sent.awaits))
    waits = say("It waits for parts from {suppliers}.", suppliers=suppliers) if suppliers else ""
    return Origin(
        say("Sent to {vendor} and back", vendor=vendor),
        _days(sent.lead.typical_days, sent.lead.slow_days),
        waits,
        say("the catalogue of machine work"),
    )


def _by(laid: Schedule, share: float, words: str) -> Origin:
    there = number(max(laid.arrival.day(share), laid.arrival.stripped), 1)
    return Origin(
        say(words),
        on_day(laid.date_for(share)),
        say(
            "All is there by working day {there}; with assembly working day {day}.",
            there=there,
            day=laid.days_for(share),
        ),
    )
