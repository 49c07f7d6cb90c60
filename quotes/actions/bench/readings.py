"""Keeping readings: as they stood on the instrument, and once in the unit of their limit."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.bench.refused import NotInTheShop
from quotes.actions.saving import save_checked
from quotes.calc.bench.teardown.sheet import SheetRow
from quotes.calc.bench.teardown.units_read import KINDS, Fault, value_of
from quotes.calc.bench.teardown.verdicts import verdict
from quotes.models import Instrument, Job, Measured, ReadWhen
from quotes.queries.bench.teardown.sheet import JobSheet, job_sheet


@dataclass(frozen=True, slots=True)
class Read:
    """What was read. `code` is the row of the sheet; without one it is a quantity of the builder's own."""

    entered: str
    unit: str
    code: str = ""
    place: str = ""
    component: str = ""
    name: str = ""
    when: str = ReadWhen.STRIPPED
    note: str = ""


@transaction.atomic
def keep_reading(
    *,
    job: Job,
    read: Read,
    key: UUID,
    by: User,
    now: datetime,
    instrument: Instrument | None = None,
) -> Measured:
    """Keep a reading; the same key again gives the one that was kept.

    A further reading of the same thing corrects the one that stood; the last that reaches us stands.
    ValidationError by field; NotInTheShop for an engine that has left. `now` is when it was read.
    """
    held = Job.objects.select_for_update(of=("self",)).select_related("engine").get(pk=job.pk)
    if kept := Measured.objects.filter(key=key).first():
        return kept
    if held.left_at is not None:
        raise NotInTheShop(held.number)
    if "\x00" in read.entered + read.place + read.name + read.code + read.component:
        raise ValidationError({"entered": say("A character that can't be stored (NUL) stands in it.")})
    sheet = job_sheet(held, scale=read.code)
    row = _row_of(read, sheet)
    try:
        value = value_of(read.entered, read.unit, row.unit)
    except Fault as wrong:
        raise ValidationError({wrong.field: str(wrong)}) from None
    new = _reading(row, read)
    new.key, new.job, new.by, new.measured_at, new.value = key, held, by, now, value
    new.instrument = instrument
    new.verdict = verdict(value, row.bounds)
    new.corrects = (
        Measured.objects.standing()
        .filter(
            job=held,
            when=new.when,
            component=new.component,
            quantity=new.quantity,
            name=new.name,
            place=new.place,
        )
        .first()
    )
    return save_checked(new)


def _row_of(read: Read, sheet: JobSheet) -> SheetRow:
    if not read.code:
        return _own_row(read, sheet)
    row = sheet.row(read.code)
    if row is None and read.code in dict(sheet.scales):
        name = dict(sheet.scales)[sheet.scale]
        raise ValidationError(
            {"code": say("This engine was read on the {name}: one scale, never both.", name=name)}
        )
    if row is None:
        raise ValidationError(
            {"code": say("{code} is nothing that this engine's sheet asks for.", code=repr(read.code))}
        )
    if read.place not in row.places:
        allowed = "; ".join(row.places) or say("no place")
        raise ValidationError(
            {"place": say("{place} is no place of it: {allowed}.", place=repr(read.place), allowed=allowed)}
        )
    return row


def _own_row(read: Read, sheet: JobSheet) -> SheetRow:
    """A quantity that the sheet does not ask for: named by the builder, of a component of this engine."""
    faults = {}
    if read.component not in sheet.components:
        faults["component"] = say(
            "{component} is no component of this engine.", component=repr(read.component)
        )
    if not read.name.strip():
        faults["name"] = say("Nothing is given: say what was measured.")
    units = {name: kept for kept, known in KINDS.items() for name in known}
    if read.unit not in units:
        faults["unit"] = say(
            "{unit} is no unit of an instrument: {allowed}.", unit=repr(read.unit), allowed=", ".join(units)
        )
    if read.when not in ReadWhen.values:
        faults["when"] = say(
            "{given} is none of {allowed}.", given=repr(read.when), allowed=", ".join(ReadWhen.values)
        )
    if faults:
        raise ValidationError(faults)
    kept_in = "percent" if read.unit == "%" else units[read.unit]
    when = "as_received" if read.when == ReadWhen.AS_RECEIVED else "stripped"
    return SheetRow("", read.component, read.name.strip(), kept_in, when, (read.place,))  # type: ignore[arg-type]


def _reading(row: SheetRow, read: Read) -> Measured:
    new = Measured(
        when=row.when if row.code else read.when,
        component=row.component,
        quantity=row.limit,
        name=row.name,
        place=read.place.strip(),
        entered=read.entered.strip(),
        entered_unit=read.unit,
        unit=row.unit,
        note=read.note.strip(),
    )
    if row.bounds is not None:
        new.standard_low, new.standard_high = row.bounds.standard_low, row.bounds.standard_high
        new.limit, new.watch, new.bad_when = row.bounds.limit, row.bounds.watch, row.bounds.bad_when
        new.limit_source = row.bounds.source
    return new
