"""An engine's logbook, gathered from every record that names it, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Literal, cast

from django.utils import timezone
from django.utils.translation import get_language

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say, say_inside
from catalogue.queries import duty_choices, tier_choices
from quotes.calc.bench.ages.lasted import age_of
from quotes.calc.bench.ages.logbook import LogEntry, LogSheet, in_order
from quotes.calc.bench.said import exact
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure
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
from quotes.queries.bench.ages.after import engine_now
from quotes.queries.bench.parts.works_orders import totals_in_words
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
        language=get_language() or "en",
        engine_name=catalogue.engine_type.name if catalogue else engine.type_code,
        engine_number=engine.number,
        on=on,
        entries=in_order(entries),
        taken_off=totals_in_words(engine.pk),
        parts=_ages(engine, catalogue),
    )


def _past(engine: Engine) -> Iterator[LogEntry]:
    duties, tiers = dict(duty_choices()), dict(tier_choices())
    for row in engine.segments.all():
        words = say(
            "{amount} {unit} of {duty}, tuned as {tier}",
            amount=exact(row.amount.normalize()),
            unit=say(WORDS[row.unit]),  # type: ignore[index]
            duty=say_inside(duties.get(row.duty, row.duty.replace("_", " "))),
            tier=say_inside(tiers.get(row.tier, row.tier)),
        )
        yield LogEntry(on=row.end or row.start, what=say("service"), words=words)


def _steps(engine: Engine) -> Iterator[LogEntry]:
    rows = JobStep.objects.filter(job__engine=engine).exclude(step="released")
    for row in rows.select_related("job", "by"):
        words = f"{row.get_step_display()}{f': {row.note}' if row.note else ''}"
        on = timezone.localdate(row.at)
        yield LogEntry(on=on, what=say("job"), words=words, by=name_of(row.by), job=row.job.number)


def _findings(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    known = catalogue.findings if catalogue else {}
    names = catalogue.components if catalogue else {}
    rows = FindingSeen.objects.standing().filter(job__engine=engine)
    for row in rows.select_related("job", "by"):
        part = names[row.component].name if row.component in names else ""
        seen = row.words or (known[row.finding_code].name if row.finding_code in known else row.finding_code)
        where = ", ".join(filter(None, (part, place_in_words(row.place))))
        yield LogEntry(
            on=timezone.localdate(row.seen_at),
            what=say("finding"),
            words=f"{where}: {seen}; {row.get_judged_display()}"
            if where
            else f"{seen}; {row.get_judged_display()}",
            by=name_of(row.by),
            job=row.job.number,
        )


def _machine_work(engine: Engine) -> Iterator[LogEntry]:
    for row in WorksOrder.objects.filter(job__engine=engine, back_on__isnull=False).select_related("job"):
        words = f"{row.name}, {row.vendor}"
        if row.taken_off_mm:
            depth = exact(row.taken_off_mm.normalize())
            words = say("{words}, {depth} mm taken off", words=words, depth=depth)
        if not row.sound:
            words = say("{words}; not as it was asked for", words=words)
        yield LogEntry(
            on=row.back_on, what=say("machine work"), words=words, by=row.back_by, job=row.job.number
        )


def _renewed(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    names = catalogue.components if catalogue else {}
    for row in engine.renewed_parts.all():
        name = names[row.component].name if row.component in names else row.component
        unit = say(WORDS[row.unit])  # type: ignore[index]
        yield LogEntry(
            on=row.on,
            what=say("renewed"),
            words=say("{name} at {at} {unit}", name=name, at=exact(row.at.normalize()), unit=unit),
        )


def _handed_over(engine: Engine) -> Iterator[LogEntry]:
    for row in Release.objects.filter(job__engine=engine).select_related("job", "by").defer("sheet"):
        words = say("{number} to {name}", number=row.number, name=row.released_to)
        if row.seal:
            words = say("{words}, seal {seal}", words=words, seal=row.seal)
        on = timezone.localdate(row.at)
        yield LogEntry(on=on, what=say("handed over"), words=words, by=name_of(row.by), job=row.job.number)


def _moved(engine: Engine, catalogue: EngineCatalogue | None) -> Iterator[LogEntry]:
    names = catalogue.components if catalogue else {}
    for row in PartStay.objects.filter(engine=engine).select_related("part"):
        code = row.part.component
        name = f"{names[code].name if code in names else code} {row.part.serial}"
        yield LogEntry(on=row.from_on, what=say("part moved"), words=say("{name} fitted", name=name))
        if row.until_on:
            yield LogEntry(on=row.until_on, what=say("part moved"), words=say("{name} taken out", name=name))
        if row.reconditioned_on:
            yield LogEntry(
                on=row.reconditioned_on, what=say("part moved"), words=say("{name} reconditioned", name=name)
            )


def _reported(engine: Engine) -> Iterator[LogEntry]:
    for row in ServiceReport.objects.standing().filter(engine=engine):
        extra = [
            say("over-rev of {pct} %", pct=exact(row.over_rev_pct.normalize())) if row.over_rev_pct else "",
            say("oil used: {oil}", oil=row.oil_used) if row.oil_used else "",
            say("filter: {seen}", seen=row.filter_seen) if row.filter_seen else "",
            row.note,
        ]
        unit = say(WORDS[row.unit])  # type: ignore[index]
        words = "; ".join(
            [
                say("{amount} {unit} since the hand-over", amount=exact(row.amount.normalize()), unit=unit),
                *filter(None, extra),
            ]
        )
        yield LogEntry(on=row.on, what=say("reported"), words=words, by=row.name)


def _failures(engine: Engine) -> Iterator[LogEntry]:
    for row in FailureReport.objects.filter(engine=engine).select_related("by"):
        words = say("{words} Who pays: {who}.", words=row.words, who=row.get_who_pays_display())
        yield LogEntry(on=row.on, what=say("failure"), words=words, by=name_of(row.by))


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
            found.append((name, f"{plain_figure(age.amount)} {say(WORDS[age.unit])}"))
    return tuple(found)
