"""Writing the assembly record: entry by entry, the owner's concessions, and the close."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.said import say
from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.papers import kept_pdf
from quotes.actions.bench.record_refused import OnlyTheOwner, RecordClosed, RecordNotComplete, RecordWaits
from quotes.actions.bench.refused import NotInTheShop, NoYes
from quotes.actions.saving import save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.assembly.missing import missing
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.calc.bench.assembly.sheet import RecordSheet
from quotes.calc.bench.teardown.units_read import Fault, value_of
from quotes.models import (
    AssemblyEntry,
    AssemblyRecord,
    Concession,
    ExtraWork,
    Instrument,
    Job,
    Step,
    StoredFile,
)
from quotes.queries.bench.assembly.record import TAKEN_BACK, JobRecord, job_record
from quotes.queries.bench.assembly.sheet import record_sheet, what_words
from quotes.queries.people import name_of
from quotes.queries.rights import may

SAID = {"tick": "yes", "new": "new", "second": "looked at"}
"""What stands as the entry of what is ticked."""
AFTER = (Step.TESTING, Step.READY)


@dataclass(frozen=True, slots=True)
class Written:
    """What was written at a place; `taken_back` leaves it empty again."""

    requirement: str
    place: str = ""
    entered: str = ""
    unit: str = ""
    part_number: str = ""
    batch: str = ""
    taken_back: bool = False


@transaction.atomic
def keep_entry(
    *,
    job: Job,
    written: Written,
    key: UUID,
    by: User,
    now: datetime,
    instrument: Instrument | None = None,
    record: JobRecord | None = None,
) -> AssemblyEntry:
    """Keep an entry; it corrects the one that stood. The same key again gives the one that was kept.

    `record` where it was worked out already. ValidationError by field, RecordClosed, NotInTheShop.
    """
    row = _open_job(job)
    if kept := AssemblyEntry.objects.filter(key=key).first():
        return kept
    if "\x00" in written.requirement + written.place:
        raise ValidationError({"place": say("A character that can't be stored (NUL) stands in it.")})
    one = _asked_for(record or job_record(row), written)
    new = AssemblyEntry(key=key, job=row, by=by, at=now, requirement=one.code, place=written.place)
    new.component, new.operation, new.name = one.component, one.operation, one.name
    if written.taken_back:
        new.entered = TAKEN_BACK
    else:
        _fill(new, one, written)
        new.instrument = instrument if one.kind in ("figure", "words") else None
        if one.kind == "second":
            _refuse_check(one, job_record(row), by)
    standing = AssemblyEntry.objects.standing().filter(job=row, requirement=one.code, place=written.place)
    new.corrects = standing.first()
    return save_checked(new)


def _open_job(job: Job) -> Job:
    """The job, locked, if its record may still be written."""
    row = locked_job(job)
    if AssemblyRecord.objects.filter(job=row).exists():
        raise RecordClosed(row.number)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    return row


def _asked_for(record: JobRecord, written: Written) -> Requirement:
    one = record.one(written.requirement)
    if one is None:
        raise ValidationError(
            {
                "requirement": say(
                    "{given} is nothing that this build's record asks for.", given=repr(written.requirement)
                )
            }
        )
    if written.place not in one.places:
        allowed = "; ".join(filter(None, one.places)) or say("no place")
        raise ValidationError(
            {
                "place": say(
                    "{place} is no place of it: {allowed}.", place=repr(written.place), allowed=allowed
                )
            }
        )
    return one


def _fill(new: AssemblyEntry, one: Requirement, written: Written) -> None:
    entered = written.entered.strip()
    if one.kind == "figure":
        try:
            new.value = value_of(entered, written.unit, one.unit)
        except Fault as wrong:
            raise ValidationError({wrong.field: str(wrong)}) from None
        new.entered_unit, new.unit = written.unit, one.unit
        if one.within is not None:
            new.low, new.high, new.limit_source = one.within.low, one.within.high, one.within.source
            new.within = one.within.holds(new.value)
    elif one.kind == "words" and (not entered or entered == TAKEN_BACK):
        raise ValidationError({"entered": say("Nothing is given: write {name}.", name=one.name)})
    new.entered = SAID.get(one.kind, entered)
    new.part_number, new.batch = written.part_number.strip(), written.batch.strip()
    if one.numbered and not (new.part_number or new.batch):
        raise ValidationError({"part_number": say("Nothing is given: a part number or a batch is needed.")})


def _refuse_check(one: Requirement, record: JobRecord, by: User) -> None:
    """A check comes after what it is about, and from somebody else."""
    answers = record.answers()
    about = [row for row in record.requirements if row.code in one.checks]
    words = {spot: row.at for spot, row in record.conceded.items()}
    if lacks := missing(about, answers, words):
        what = what_words(lacks[0].requirement, lacks[0].place, record)
        raise ValidationError({"entered": say("There is something to write down first: {what}.", what=what)})
    if any(answers[spot].by == by.get_username() for spot in answers if spot[0] in one.checks):
        raise ValidationError(
            {
                "entered": say(
                    "{name} wrote this down himself: another person looks at it, signed in.", name=name_of(by)
                )
            }
        )


@transaction.atomic
def concede(
    *, job: Job, requirement: str, place: str, words: str, key: UUID, by: User, now: datetime
) -> Concession:
    """Keep the owner's word that this may stay empty or outside; the same key again gives the one kept.

    ValidationError by field, OnlyTheOwner, RecordClosed, NotInTheShop.
    """
    if not may(by, "let something pass"):
        raise OnlyTheOwner
    row = _open_job(job)
    if kept := Concession.objects.filter(key=key).first():
        return kept
    _asked_for(job_record(row), Written(requirement, place))
    if not words.strip():
        raise ValidationError({"words": say("Nothing is given: write why it may stay so.")})
    return save_checked(
        Concession(key=key, job=row, requirement=requirement, place=place, words=words.strip(), at=now, by=by)
    )


@transaction.atomic
def close_record(*, job: Job, by: User, now: datetime) -> AssemblyRecord:
    """Close the record and keep it as it stands; the job goes on to testing. A closed one is given back.

    RecordNotComplete with all that is missing, RecordWaits, NoYes, NotInTheShop.
    """
    row = locked_job(job)
    if standing := AssemblyRecord.objects.filter(job=row).first():
        return standing
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    record = job_record(row)
    if not record.requirements:
        raise NoYes(row.number)
    if waiting := ExtraWork.objects.waiting().filter(build__quote=row.quote_id).first():
        raise RecordWaits(row.number, waiting.number)
    if lacks := record.lacks():
        told = [f"{what_words(one.requirement, one.place, record)}: {one.words}" for one in lacks]
        raise RecordNotComplete(row.number, told)
    sheet = _sheet(row, by, now)
    closed = save_checked(
        AssemblyRecord(
            job=row,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            closed_at=now,
            closed_by=by,
        )
    )
    if row.step not in AFTER:
        move(job=job, step=Step.TESTING, by=by, now=now, note=say("Assembly record closed"))
    return closed


def _sheet(row: Job, by: User, now: datetime) -> RecordSheet:
    """All of it said in the language of the customer, the names of its parts too."""
    with translation.override(row.customer.reads):
        return record_sheet(row, job_record(row), timezone.localdate(now), name_of(by))


def record_file(*, record: AssemblyRecord) -> StoredFile:
    """The stored paper of a record, drawn now where that has not been done yet."""
    sheet = RecordSheet.model_validate(record.sheet)
    return kept_pdf(record, f"{sheet.number}-assembly-record.pdf", lambda: _drawn(sheet))


def _drawn(sheet: RecordSheet) -> bytes:
    from quotes.documents.bench.record import record_pdf  # takes a second to import

    return record_pdf(sheet)
