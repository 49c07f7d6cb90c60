"""An engine's logbook, gathered from every record that names it, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Literal, cast

from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.bench.lasted import age_of
from quotes.calc.bench.logbook import LogEntry, LogSheet, in_order
from quotes.calc.life.units import WORDS
from quotes.models import (
    Engine,
    FailureReport,
    FindingSeen,
    JobStep,
    PartStay,
    Release,
    ServiceReport,
    Workshop,
    WorksOrder,
)
from quotes.queries.bench.after import engine_now
from quotes.queries.bench.works_orders import totals_in_words
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party


def logbook(engine: Engine, on: date) -> LogSheet:
    """The logbook as it stands. Fetch the engine `with_after` to save queries."""
    workshop = Workshop.objects.get_or_default()
    catalogue = known_catalogue(engine.type_code)
    entries = [
        *_past(engine),
        *_steps(engine),
        *_findings(engine, catalogue),
        *_machine_work(engine),
        *_renewed(engine, catalogue),
        *_handed_over(engine),
        *_moved(engine, catalogue),
        *_reported(engine),
        *_failures(engine),
    ]
    return LogSheet(
        workshop=workshop_party(workshop),
        owner=customer_party(engine.customer),
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        engine_name=catalogue.engine_type.name if catalogue else engine.type_code,
        engine_number=engine.number,
        on=on,
        entries=in_order(entries),
        taken_off=totals_in_words(engine.pk),
        parts=_ages(engine, catalogue),
    )


def _past(engine: Engine) -> Iterator[LogEntry]:
    for row in engine.segments.all():
        unit = WORDS[row.unit]  # type: ignore[index]
        words = f"{row.amount.normalize():f} {unit} of {row.duty.replace('_', ' ')}, tuned as {row.tier}"
        yield LogEntry(on=row.end or row.start, what="service", words=words)


def _steps(engine: Engine) -> Iterator[LogEntry]:
    rows = JobStep.objects.filter(job__engine=engine).exclude(step="released")
    for row in rows.select_related("job", "by"):
        words = f"{row.get_step_display()}{f': {row.note}' if row.note else ''}"
        on = timezone.localdate(row.at)
        yield LogEntry(on=on, what="job", words=words, by=name_of(row.by), job=row.job.number)


def _findings(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    known = catalogue.findings if catalogue else {}
    names = catalogue.components if catalogue else {}
    rows = FindingSeen.objects.standing().filter(job__engine=engine)
    for row in rows.select_related("job", "by"):
        part = names[row.component].name if row.component in names else ""
        seen = row.words or (known[row.finding_code].name if row.finding_code in known else row.finding_code)
        where = ", ".join(filter(None, (part, row.place)))
        yield LogEntry(
            on=timezone.localdate(row.seen_at),
            what="finding",
            words=f"{where}: {seen}; {row.get_judged_display()}"
            if where
            else f"{seen}; {row.get_judged_display()}",
            by=name_of(row.by),
            job=row.job.number,
        )


def _machine_work(engine: Engine) -> Iterator[LogEntry]:
    for row in WorksOrder.objects.filter(job__engine=engine, back_on__isnull=False).select_related("job"):
        depth = f", {row.taken_off_mm.normalize():f} mm taken off" if row.taken_off_mm else ""
        sound = "" if row.sound else "; not as it was asked for"
        words = f"{row.name}, {row.vendor}{depth}{sound}"
        yield LogEntry(on=row.back_on, what="machine work", words=words, by=row.back_by, job=row.job.number)


def _renewed(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    names = catalogue.components if catalogue else {}
    for row in engine.renewed_parts.all():
        name = names[row.component].name if row.component in names else row.component
        unit = WORDS[row.unit]  # type: ignore[index]
        yield LogEntry(on=row.on, what="renewed", words=f"{name} at {row.at.normalize():f} {unit}")


def _handed_over(engine: Engine) -> Iterator[LogEntry]:
    for row in Release.objects.filter(job__engine=engine).select_related("job", "by").defer("sheet"):
        seal = f", seal {row.seal}" if row.seal else ""
        words = f"{row.number} to {row.released_to}{seal}"
        on = timezone.localdate(row.at)
        yield LogEntry(on=on, what="handed over", words=words, by=name_of(row.by), job=row.job.number)


def _moved(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    names = catalogue.components if catalogue else {}
    for row in PartStay.objects.filter(engine=engine).select_related("part"):
        code = row.part.component
        name = f"{names[code].name if code in names else code} {row.part.serial}"
        yield LogEntry(on=row.from_on, what="part moved", words=f"{name} fitted")
        if row.until_on:
            yield LogEntry(on=row.until_on, what="part moved", words=f"{name} taken out")
        if row.reconditioned_on:
            yield LogEntry(on=row.reconditioned_on, what="part moved", words=f"{name} reconditioned")


def _reported(engine: Engine) -> Iterator[LogEntry]:
    for row in ServiceReport.objects.standing().filter(engine=engine):
        extra = [
            f"over-rev of {row.over_rev_pct.normalize():f} %" if row.over_rev_pct else "",
            f"oil used: {row.oil_used}" if row.oil_used else "",
            f"filter: {row.filter_seen}" if row.filter_seen else "",
            row.note,
        ]
        unit = WORDS[row.unit]  # type: ignore[index]
        words = "; ".join([f"{row.amount.normalize():f} {unit} since the hand-over", *filter(None, extra)])
        yield LogEntry(on=row.on, what="reported", words=words, by=row.name)


def _failures(engine: Engine) -> Iterator[LogEntry]:
    for row in FailureReport.objects.filter(engine=engine).select_related("by"):
        words = f"{row.words} Who pays: {row.get_who_pays_display()}."
        yield LogEntry(on=row.on, what="failure", words=words, by=name_of(row.by))


def _ages(engine: Engine, catalogue: EngineCatalogue | None) -> tuple[tuple[str, str], ...]:
    if catalogue is None:
        return ()
    asked = engine_now(engine)
    found = []
    for code, component in catalogue.components.items():
        # What is new at every opening, and what the owner changes himself, has no life to write down.
        lifed = component.lives and component.judged_by != "disturbed" and not component.service_item
        age = age_of(asked, code, catalogue) if lifed else None
        if age is not None:
            own = asked.carried.get(code)
            name = f"{component.name} {own.serial}" if own else component.name
            found.append((name, f"{age.amount.normalize():,f} {WORDS[age.unit]}"))
    return tuple(found)
