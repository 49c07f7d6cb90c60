"""The assembly record of a job as the value that is stored when it is closed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Literal, cast

from django.utils import timezone

from catalogue.calc.said import say, to_say
from catalogue.calc.typed_figure import as_entered
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.calc.bench.assembly.sheet import (
    RecordConcession,
    RecordItem,
    RecordPart,
    RecordSheet,
    RecordValue,
    limits_in_words,
)
from quotes.calc.bench.said import day
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.said_days import said_day
from quotes.models import AssemblyEntry, Instrument, Job, Measured, Workshop
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.assembly.record import TAKEN_BACK, JobRecord
from quotes.queries.bench.jobs import build_of, catalogue_of
from quotes.queries.bench.read_by import read_by_customer
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party

WHOLE_ENGINE = to_say("The engine")


@read_by_customer
def record_sheet(job: Job, record: JobRecord, on: date, closed_by: str) -> RecordSheet:
    """Everything that is written, with its limits; LookupError where the engine type is gone."""
    workshop = Workshop.objects.get_or_default()
    build = build_of(job)
    return RecordSheet(
        number=job.number,
        workshop=workshop_party(workshop),
        customer=customer_party(job.customer),
        engine_name=catalogue_of(job).engine_type.name,
        engine_number=job.engine.number,
        tag=job.tag,
        quote=job.quote.title if job.quote else "",
        build=accepted_option(build).name if build else "",
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=job.customer.reads,
        closed_on=on,
        closed_by=closed_by,
        parts=_parts(record),
        concessions=tuple(_concessions(record)),
        instruments=_instruments(record),
    )


def _parts(record: JobRecord) -> tuple[RecordPart, ...]:
    parts: dict[str, list[RecordItem]] = {}
    for one in record.requirements:
        parts.setdefault(one.component, []).append(_item(one, record))
    return tuple(
        RecordPart(name=record.names.get(code) or say(WHOLE_ENGINE), items=tuple(items))
        for code, items in parts.items()
    )


def _item(one: Requirement, record: JobRecord) -> RecordItem:
    rows = [record.entries.get((one.code, place)) for place in one.places]
    read = [record.read.get((one.code, place)) for place in one.places]
    kept = [row for row in rows if row is not None and row.entered != TAKEN_BACK]
    serves = [row for row, entry in zip(read, rows, strict=True) if row is not None and entry is None]
    used: list[AssemblyEntry | Measured] = [*kept, *serves]
    limits = limits_in_words(one.within.low, one.within.high, one.unit) if one.within else ""
    units = {row.entered_unit for row in kept} if not serves and one.kind == "figure" else set()
    unit = units.pop() if len(units) == 1 else ""
    return RecordItem(
        name=f"{one.name}, {one.note}" if one.note else one.name,
        unit=unit,
        values=tuple(
            RecordValue(
                place=place_in_words(place),
                words=entry_words(entry, reading).removesuffix(f" {unit}" if unit else ""),
                within=entry.within if entry else None,
                conceded=(one.code, place) in record.conceded,
            )
            for place, entry, reading in zip(one.places, rows, read, strict=True)
        ),
        limits=limits,
        source=one.within.source if one.within else "",
        instruments=_once(row.instrument.name for row in used if row.instrument),
        by=_once(
            [
                *(_signed(name_of(row.by), timezone.localdate(row.at)) for row in kept),
                *(_signed(name_of(row.by), timezone.localdate(row.measured_at)) for row in serves),
            ]
        ),
    )


def _signed(name: str, on: date) -> str:
    return f"{name}, {day(on)}"


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def entry_words(entry: AssemblyEntry | None, reading: Measured | None = None) -> str:
    """What stands at one place, as it is read; empty where nothing does."""
    if entry is None:
        return _at_strip_down(reading) if reading else ""
    if entry.entered == TAKEN_BACK:
        return ""
    numbered = bool(entry.part_number or entry.batch)
    told = [] if numbered else [f"{say(as_entered(entry.entered))} {entry.entered_unit}".strip()]
    told += [entry.part_number] if entry.part_number else []
    told += [say("batch {batch}", batch=entry.batch)] if entry.batch else []
    return ", ".join(told)


def _at_strip_down(reading: Measured) -> str:
    return say(
        "{entered} {unit}, at strip-down", entered=as_entered(reading.entered), unit=reading.entered_unit
    )


def _concessions(record: JobRecord) -> Iterable[RecordConcession]:
    for (code, place), row in record.conceded.items():
        one = record.one(code)
        yield RecordConcession(
            what=what_words(one, place, record) if one else f"{code} {place}".strip(),
            words=row.words,
            by=name_of(row.by),
            on=timezone.localdate(row.at),
        )


def what_words(one: Requirement, place: str, record: JobRecord) -> str:
    """What a requirement is about: its component, its name and the place."""
    component = record.names.get(one.component) or say(WHOLE_ENGINE)
    return ", ".join(filter(None, (component[:1].upper() + component[1:], one.name, place_in_words(place))))


def stands_words(one: Requirement, place: str, record: JobRecord) -> str:
    """What stands at a place and what it must be, for somebody who is to let it pass."""
    words = entry_words(record.entries.get((one.code, place))) or say("nothing is written")
    limits = limits_in_words(one.within.low, one.within.high, one.unit) if one.within else ""
    return say("{words}; asked for: {limits}", words=words, limits=limits) if limits else words


def _instruments(record: JobRecord) -> tuple[tuple[str, str], ...]:
    used: dict[int, Instrument] = {}
    rows: list[AssemblyEntry | Measured] = [*record.entries.values(), *record.read.values()]
    for row in rows:
        if row.instrument is not None:
            used[row.instrument.pk] = row.instrument
    return tuple((one.name, checked_words(one)) for one in used.values())


def checked_words(one: Instrument) -> str:
    """When it was last checked."""
    on = one.checked_on
    return say("checked {day}", day=said_day(on)) if on else say("no check written down")
