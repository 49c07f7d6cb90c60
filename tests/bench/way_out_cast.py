"""A built engine with its record closed and its last look taken, ready to be handed over. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

from quotes.actions.bench.releasing import HandedOver, release
from quotes.actions.bench.testing import Looked, keep_check
from quotes.calc.bench.leaving.final_questions import QUESTIONS
from quotes.models import AssemblyRecord, Engine, FinalCheck, Job, Release, RenewedPart, Segment
from quotes.queries.bench.ages.new_lives import new_lives_of
from tests.bench.cast import built_job
from tests.cast import builder, owner
from tests.quotes.cast import NOW

LEAVES = NOW + timedelta(hours=3)
GIVEN = HandedOver(
    released_to="Marel Otten",
    shown="his licence",
    old_parts="returned",
    seal="S-0417",
    unpaid_consent="Pays on Friday, he is known here",
)


def mild_four() -> Job:
    """A 600 four that came at 4,100 sprint miles, built mild: springs and an inlet cam new, seats cut."""
    row = built_job()
    Engine.objects.filter(pk=row.engine_id).update(history_known=True, build_cycles={})
    row.engine.segments.all().delete()
    Segment.objects.create(engine=row.engine, order=0, amount=Decimal(4100), unit="mi", duty="sprint")
    RenewedPart.objects.create(engine=row.engine, component="oil_pump", at=Decimal(3000), unit="mi")
    return row


def renewed(of: Job) -> dict[str, Decimal]:
    """Components of a job's engine that were renewed, each with the service at which."""
    return dict(RenewedPart.objects.filter(engine=of.engine_id).values_list("component", "at"))


def closed_record(of: Job) -> AssemblyRecord:
    """The record as a row, where a test is not about writing it."""
    row = AssemblyRecord(job=of, sheet={}, sheet_sha256="0" * 64, closed_at=NOW, closed_by=builder())
    row.save()
    return row


def looked_over(of: Job, *, but: frozenset[str] = frozenset(), **change: Any) -> FinalCheck:
    """Everything answered well, and new what was agreed, `but` for some."""
    whole = Looked(
        said={one.code: "yes" for one in QUESTIONS},
        notes={},
        done=tuple(one.component for one in new_lives_of(of) if one.component not in but),
        rings="thin_steel",
        bore="plated",
    )
    return keep_check(job=of, looked=replace(whole, **change), key=uuid4(), by=builder(), now=NOW)


def ready_job(of: Job | None = None, **change: Any) -> Job:
    """A job whose record is closed and which was looked over; takes the shipped catalogue."""
    of = of or built_job()
    closed_record(of)
    looked_over(of, **change)
    return of


def handed_over(of: Job, **change: Any) -> Release:
    """Handed over by the owner, who lets it go unpaid."""
    return release(job=of, given=replace(GIVEN, **change), by=owner(), now=LEAVES)
