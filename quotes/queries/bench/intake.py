"""What intake asks of the books: engines that are expected, and what is known of one that stands here."""

from __future__ import annotations

from collections.abc import Iterator

from django.utils import timezone

from catalogue.calc.said import say
from quotes.calc.bench.stated import EarlierService, total_of
from quotes.calc.said_days import said_day
from quotes.models import Acceptance, Booking, Engine, Job, ServiceReport
from quotes.queries.engines import engine_asked

MOST = 25
"""So many of one sort are offered: any other is found by its number."""


def expected() -> list[Booking]:
    """Bookings that stand and whose engine has not come in, the first to arrive first."""
    rows = Booking.objects.standing().joined().filter(job=None).exclude(enquiry__quote__job__isnull=False)
    return list(rows.defer("sheet", "enquiry__request", "enquiry__said").order_by("arrive_by", "pk")[:MOST])


def accepted_not_here() -> list[Acceptance]:
    """Builds in hand whose engine has not come in and that no booking speaks of."""
    rows = Acceptance.objects.in_hand().filter(quote__job=None, quote__enquiry__bookings=None)
    rows = rows.select_related("quote__customer", "quote__engine").defer("quote__request")
    return list(rows.order_by("accepted_at", "pk")[:MOST])


def engines_found(text: str) -> list[Engine]:
    """Engines by number or owner, for one who stands at the door."""
    if not text.strip() or "\x00" in text:
        return []
    return list(Engine.objects.found_by(text).select_related("customer").order_by("number", "pk")[:MOST])


def jobs_of_type(type_code: str, but: int | None = None) -> list[Job]:
    """Engines of one type that stand in the workshop: two like ones are told apart by their tags."""
    rows = Job.objects.in_the_shop().filter(engine__type_code=type_code)
    rows = rows if but is None else rows.exclude(pk=but)
    return list(rows.select_related("engine", "customer").order_by("received_at", "pk"))


def earlier_service(engine: Engine, but: Job | None = None) -> list[EarlierService]:
    """All that was ever known of how far this engine has run."""
    return [*_on_record(engine), *_at_jobs(engine, but), *_reported(engine)]


def _on_record(engine: Engine) -> Iterator[EarlierService]:
    asked = engine_asked(engine)
    for unit in {stretch.unit for stretch in asked.history or ()}:
        total = total_of(asked.history or (), unit)
        if total is not None:
            yield EarlierService(total, unit, say("in the engine's record"))
    for renewal in asked.renewed.values():
        yield EarlierService(
            renewal.at, renewal.unit, say("in the engine's record, where a part was renewed")
        )


def _at_jobs(engine: Engine, but: Job | None) -> Iterator[EarlierService]:
    rows = Job.objects.filter(engine=engine)
    for row in rows.exclude(pk=but.pk) if but else rows:
        if row.service_amount is not None:
            on = timezone.localdate(row.received_at)
            where = say("at {number}, {day}", number=row.number, day=said_day(on))
            yield EarlierService(row.service_amount, str(row.service_unit), where)


def _reported(engine: Engine) -> Iterator[EarlierService]:
    """A report counts from the last release, so the whole is as much at least."""
    for row in ServiceReport.objects.filter(engine=engine).standing():
        yield EarlierService(row.amount, str(row.unit), say("as reported, {day}", day=said_day(row.on)))
