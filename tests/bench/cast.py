"""Engines that came in, and how far their jobs have come. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

from quotes.actions.bench.jobs import Intake, move, receive
from quotes.actions.bench.leave import LeaveGiven, give_leave
from quotes.actions.bench.record import SAID, close_record
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.models import (
    Acceptance,
    AssemblyEntry,
    AssemblyRecord,
    Customer,
    Engine,
    Job,
    Quote,
    Release,
    TeardownLeave,
    Workshop,
)
from quotes.queries.bench.assembly.record import job_record
from tests.books.cast import build, vat_shop
from tests.cast import builder, desk, owner
from tests.quotes import cast
from tests.quotes.cast import NOW, ON
from tests.written_again import written_again

__all__ = [
    "LATER",
    "NOW",
    "ON",
    "built_job",
    "given",
    "job",
    "leave",
    "leave_given",
    "recorded",
    "stripped_job",
]

LATER = NOW + timedelta(days=3)


def given(**change: Any) -> Intake:
    """A 600 four, loose, complete but for its dipstick, 4,100 miles from a logbook."""
    whole = Intake(
        brought_by="Marel Otten",
        right_to_hand_over="owner of the engine",
        shelf="B3",
        marks=(("Engine number", "H4-20417"), ("Left case half", "L 117"), ("Right case half", "R 117")),
        came_with=("Carburettors", "Clutch cable"),
        missing="Dipstick",
        oil_seen="Dark, no metal to be seen",
        symptoms="Jumps out of fourth",
        duty="sprint",
        service_amount=Decimal(4100),
        service_unit="mi",
        service_known="logbook",
    )
    return replace(whole, **change)


@written_again
def job(*, quote: Quote | None = None, engine: Engine | None = None, **change: Any) -> Job:
    """A job just received: for the quote's engine, for this one, or for one of that number."""
    if not Workshop.objects.exists():
        vat_shop()
    if quote is not None:
        engine = quote.engine
    if engine is None:
        owner_of = Customer.objects.filter(name="Marel Otten").first() or cast.customer()
        number = change.pop("number", "H4-20417")
        engine = Engine.objects.filter(number=number).first() or cast.engine(owner_of, number)
    now = change.pop("now", NOW)
    return receive(
        engine=engine,
        customer=engine.customer,
        given=given(**change),
        key=uuid4(),
        by=desk(),
        now=now,
        quote=quote,
    )


@written_again
def built_job(of: Acceptance | None = None, **change: Any) -> Job:
    """A job whose quote was said yes to (tests.books.cast.build); its build is `job.quote.acceptance`."""
    of = of or build(**change)
    return job(quote=of.quote)


def leave_given(**change: Any) -> LeaveGiven:
    """940 for the strip-down, 1,570 for putting it back, half of the first as deposit; signed."""
    whole = LeaveGiven(
        price=Decimal(940),
        put_back_price=Decimal(1570),
        deposit=Decimal(470),
        if_not="in_boxes",
        name="Marel Otten",
        right="owner of the engine",
        how="signature",
    )
    return replace(whole, **change)


def leave(of: Job, **change: Any) -> TeardownLeave:
    """Leave to strip, given by the owner of the engine."""
    return give_leave(job=of, given=leave_given(**change), by=desk(), now=NOW)


def stripped_job(of: Job | None = None) -> Job:
    """A job that is stripped, with the customer's leave."""
    of = of or built_job()
    leave(of)
    move(job=of, step="stripped", by=builder(), now=NOW)
    return of


def recorded(of: Job | None = None) -> AssemblyRecord:
    """The closed record of a built job, the checks made by the owner; takes the shipped catalogue."""
    of = of or built_job()
    written_down(of)
    return close_record(job=of, by=builder(), now=NOW + timedelta(hours=1))


def written_down(of: Job, *, but: str = "") -> None:
    """Every entry of a job's record, but for one requirement."""
    asked = [one for one in job_record(of).requirements if one.code != but]
    AssemblyEntry.objects.bulk_create(_entry(of, one, place) for one in asked for place in one.places)


def _entry(of: Job, one: Requirement, place: str) -> AssemblyEntry:
    """A figure at its bound, a number where one is needed, a check by the owner."""
    bound = (one.within.low if one.within.low is not None else one.within.high) if one.within else None
    figure = (bound or Decimal(1)) if one.kind == "figure" else None
    return AssemblyEntry(
        job=of,
        requirement=one.code,
        component=one.component,
        operation=one.operation,
        name=one.name,
        place=place,
        entered=f"{figure.normalize():f}" if figure is not None else SAID.get(one.kind, "as the manual says"),
        entered_unit=one.units[0] if one.units else "",
        value=figure,
        unit=one.unit,
        within=True if one.within else None,
        part_number=(one.number or "N-1") if one.kind == "new" else "",
        at=NOW,
        by=owner() if one.kind == "second" else builder(),
    )


def released(of: Job) -> Job:
    """The job with its engine fetched, as far as the records after it go."""
    row = Release(
        job=of,
        number=f"L-2026-{of.pk:04}",
        released_to="Marel Otten",
        sheet={},
        sheet_sha256="0" * 64,
        at=NOW,
        by=desk(),
    )
    row.save()
    of.left_at = NOW
    of.save(update_fields=["left_at"])
    return Job.objects.joined().get(pk=of.pk)
