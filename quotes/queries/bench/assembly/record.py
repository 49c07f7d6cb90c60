"""The assembly record of a job: what it asks for, what is written, and what is missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from catalogue.calc.said import say
from catalogue.queries import current_rows
from quotes.calc.bench.assembly.missing import Answer, Missing, Spot, missing
from quotes.calc.bench.assembly.requirements import KnownLimits, Requirement, requirements_of
from quotes.calc.bench.assembly.work import work_of
from quotes.calc.bench.said import long_day
from quotes.models import (
    AssemblyEntry,
    AssemblyRecord,
    Concession,
    ExtraWork,
    Job,
    Measured,
    ReadWhen,
    Workshop,
)
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.jobs import build_of
from quotes.queries.bench.parts.wanted import agreed_of
from quotes.queries.bench.teardown.sheet import job_sheet, manual_figures
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of

TAKEN_BACK = "taken back"
"""What an entry says that leaves its place empty again."""


@dataclass(frozen=True, slots=True)
class JobRecord:
    """What is asked for and what stands, by requirement and place.

    `read` are readings of the strip-down that serve; `names` and `groups` are those of the components.
    """

    requirements: tuple[Requirement, ...] = ()
    entries: Mapping[Spot, AssemblyEntry] = field(default_factory=dict)
    read: Mapping[Spot, Measured] = field(default_factory=dict)
    conceded: Mapping[Spot, Concession] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)
    groups: Mapping[str, str] = field(default_factory=dict)

    @property
    def places(self) -> int:
        return sum(len(one.places) for one in self.requirements)

    def answers(self) -> dict[Spot, Answer]:
        """What stands, as the rules take it; an entry of the record stands before a reading."""
        found = {spot: Answer(read.by.get_username(), read.measured_at) for spot, read in self.read.items()}
        for spot, row in self.entries.items():
            if row.entered != TAKEN_BACK:
                found[spot] = Answer(row.by.get_username(), row.at, row.within)
        return found

    def lacks(self) -> tuple[Missing, ...]:
        return missing(
            self.requirements, self.answers(), {spot: row.at for spot, row in self.conceded.items()}
        )

    def one(self, code: str) -> Requirement | None:
        return next((one for one in self.requirements if one.code == code), None)


def job_record(job: Job) -> JobRecord:
    """The record of a job's build; without a yes, or without its engine type, it asks for nothing."""
    build = build_of(job)
    catalogue = known_catalogue(job.engine.type_code)
    if build is None or catalogue is None:
        return JobRecord()
    extra = ExtraWork.objects.filter(build=build).agreed().order_by("index")
    policy = Workshop.objects.get_or_default().renew_policy_parts
    work = work_of(agreed_of(build, extra, policy_parts=policy), catalogue)
    limits = {row.code: row for row in current_rows().limits}
    figures = KnownLimits(limits, manual_figures(catalogue), job_sheet(job).scale)
    requirements = requirements_of(work, catalogue, figures)
    concessions = Concession.objects.filter(job=job).select_related("by").order_by("at", "pk")
    return JobRecord(
        requirements=requirements,
        entries=_entries(job),
        read=_read(job, requirements),
        conceded={(row.requirement, row.place): row for row in concessions},
        names={one.code: one.name for one in catalogue.components.values()},
        groups={one.code: one.group for one in catalogue.components.values()},
    )


def _entries(job: Job) -> dict[Spot, AssemblyEntry]:
    rows = AssemblyEntry.objects.standing().filter(job=job)
    rows = rows.select_related("by", "instrument", "corrects")
    return {(row.requirement, row.place): row for row in rows}


def _read(job: Job, requirements: tuple[Requirement, ...]) -> dict[Spot, Measured]:
    """Readings of the strip-down within their limits, for what stays as it was."""
    codes = {one.reading: one.code for one in requirements if one.reading}
    rows = Measured.objects.standing().filter(job=job, quantity__in=codes, when=ReadWhen.STRIPPED)
    rows = rows.exclude(verdict="past").select_related("by", "instrument")
    return {(codes[row.quantity], row.place): row for row in rows}


def job_line(job: Job, on: date) -> JobLine | None:
    """The record on the job's page: closed, or how much of it is missing."""
    if job.quote is None or job.quote.accepted_at is None:
        return None
    closed = AssemblyRecord.objects.filter(job=job).select_related("closed_by").first()
    if closed is not None:
        words = say(
            "closed on {day} by {name}",
            day=long_day(closed.closed_at),
            name=name_of(closed.closed_by),
        )
    else:
        record = job_record(job)
        lacks, places = len(record.lacks()), record.places
        words = (
            say("{count} of {all} entries missing", count=lacks, all=places)
            if lacks
            else say("all {count} made, to be closed", count=places)
        )
    return JobLine(title=say("Assembly record"), words=words, url_name="record", args=(job.pk,))
