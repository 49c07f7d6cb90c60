"""When a build is ready as things stand: what is here, on its way, out, and left on the bench."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.db.models import Sum

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.bench.parts.pieces import plain
from quotes.calc.bench.ready import Ahead, OnTheWay, Outlook, hours_left, outlook
from quotes.calc.bench.said import day
from quotes.calc.sheet.words import whole_percent
from quotes.calc.shop import Queue
from quotes.models import (
    Acceptance,
    ExtraWork,
    Job,
    OrderEvent,
    OrderEventKind,
    Step,
    WorkedHours,
    Workshop,
    WorksOrder,
)
from quotes.queries.bench.parts.wanted import BuildParts, build_parts
from quotes.queries.slots import jobs_in_hand
from quotes.queries.workshop import closed_days

NOT_STRIPPED = (str(Step.RECEIVED), str(Step.LEAVE_GIVEN))


def outlook_of(parts: BuildParts, on: date) -> Outlook:
    """The dates of a build, and the chance of the day that was promised to its customer."""
    return outlook(on, ahead_of(parts, on), parts.promised_on)


def ahead_of(parts: BuildParts, on: date) -> Ahead:
    """All that is still ahead of a build."""
    build, catalogue, option = parts.build, parts.catalogue, parts.agreed.option
    job: Job | None = getattr(build.quote, "job", None)
    sent = list(WorksOrder.objects.filter(job=job)) if job else []
    clocked = WorkedHours.objects.of_build(build.pk).order_by().values_list("operation")
    hours = dict(clocked.annotate(Sum("hours")))
    work = {line.code for line in option.lines if line.kind == "machine_work"}
    away = {row.machine_work for row in sent}
    known = catalogue.machine_work.keys()
    stripped = job is not None and str(job.step) not in NOT_STRIPPED
    return Ahead(
        hours=hours_left(catalogue, option.operations, hours, stripped=stripped),
        queue=_queue(build, on),
        on_the_way=_on_the_way(parts),
        out=tuple(_out(row) for row in sent if row.back_on is None),
        to_order=tuple(need.pick.part for need in parts.to_order if need.pick.part),
        to_send=tuple(catalogue.machine_work[one] for one in sorted((work - away) & known)),
        stopped=ExtraWork.objects.waiting().filter(build=build).exclude(stops=[]).exists(),
    )


def _queue(build: Acceptance, on: date) -> Queue:
    """The bench with what was promised before this build, less what was worked on it since."""
    workshop = Workshop.objects.get_or_default()
    before: dict[int, Decimal] = {}
    for job in jobs_in_hand():
        if job.quote_pk == build.quote_id:
            break
        if job.quote_pk is not None and (job.promise.week is None or job.promise.week <= on):
            before[job.quote_pk] = job.promise.hours
    worked = WorkedHours.objects.filter(build__quote__in=before).order_by().values_list("build__quote")
    for quote, hours in worked.annotate(Sum("hours")):
        before[quote] = max(before[quote] - hours, ZERO)
    return Queue(workshop.bench_hours_a_day, sum(before.values(), ZERO), closed_days(workshop, on))


def _on_the_way(parts: BuildParts) -> tuple[OnTheWay, ...]:
    waiting = [(line, stands) for line, stands in parts.lines if stands.to_come and line.expected_on]
    again = OrderEvent.objects.filter(
        line__in=[line.pk for line, stands in waiting if stands.of("back_ordered")],
        kind=OrderEventKind.BACK_ORDERED,
        promised_on__isnull=False,
    )
    promised = dict(again.order_by("at", "pk").values_list("line", "promised_on"))
    return tuple(
        OnTheWay(
            what=f"{plain(stands.to_come)} {line.description}",
            source=line.order.number if line.pk not in promised else f"{line.order.number}/{line.position}",
            expected_on=line.expected_on,
            slow_on=line.slow_on or line.expected_on,
            promised_on=promised.get(line.pk),
            components=frozenset(filter(None, (line.component,))),
        )
        for line, stands in waiting
        if line.expected_on
    )


def _out(row: WorksOrder) -> OnTheWay:
    return OnTheWay(f"{row.number}, {row.name}", row.number, row.expected_on, row.slow_on)


def ready_of(build: Acceptance, on: date) -> Outlook | None:
    """The outlook of a build in hand; None for one that is done or called off, or of an unknown type."""
    if build.done_at is not None or build.is_called_off:
        return None
    parts = build_parts(build, on)
    return outlook_of(parts, on) if parts else None


def promised_and_now(found: Outlook) -> str:
    """Promised against now, in words for the customer and the job's page.

    The day named is the one that is met eight times in ten, as the one promised was.
    """
    now = day(found.ready.p80)
    if found.promised_on is None:
        return say("ready by {now}, 8 times in 10", now=now)
    chance = whole_percent(found.chance_by_promised or 0.0)
    if found.late:
        return say(
            "promised for {promised}; as things stand by {now}, 8 times in 10 ({chance} by the day promised)",
            promised=day(found.promised_on),
            now=now,
            chance=chance,
        )
    return say(
        "promised for {promised}, met {chance} of the time as things stand",
        promised=day(found.promised_on),
        chance=chance,
    )
