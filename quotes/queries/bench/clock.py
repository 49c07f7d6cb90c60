"""Clocks: what runs, what was left running, and the hours of one job by piece of work and person."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.db.models import Q
from django.utils import timezone

from catalogue.calc.engine import Operation
from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_figure
from quotes.calc.bench.clock import left_running
from quotes.models import ClockRun, Job, WorkedHours
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.again.committed import stopped_operations
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.jobs import build_of
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of

BEFORE_THE_YES = frozenset({"strip", "clean", "inspect", "office"})
"""Work that is done before anybody has said yes: the engine is opened and measured."""


@dataclass(frozen=True, slots=True)
class ClockedWork:
    """One piece of work on the clock's page. `waits` names the extra work that holds it up."""

    operation: str
    name: str
    quoted: Decimal | None
    worked: Decimal
    waits: str = ""


@dataclass(frozen=True, slots=True)
class JobClock:
    """The clock of one job: work in order, hours by person, and clocks that run on it."""

    work: tuple[ClockedWork, ...]
    people: tuple[tuple[str, Decimal], ...]
    running: tuple[ClockRun, ...]

    @property
    def worked(self) -> Decimal:
        return sum((one.worked for one in self.work), ZERO)


def running_of(person_id: int | None) -> ClockRun | None:
    """A person's clock, where it runs."""
    rows = ClockRun.objects.running().select_related("job__engine", "person")
    return rows.filter(person=person_id).first()


def forgotten(now: datetime) -> list[ClockRun]:
    """Clocks that were left running, the oldest first."""
    rows = ClockRun.objects.running().select_related("job__engine", "person").order_by("started_at")
    local = timezone.localtime(now)
    return [run for run in rows if left_running(timezone.localtime(run.started_at), local)]


def clock_of_job(job: Job) -> JobClock:
    """The work of the job with what was clocked on it; before the yes, strip-down and measuring."""
    build = build_of(job)
    rows = WorkedHours.objects.filter(Q(job=job) | Q(build=build) if build else Q(job=job))
    by_work: dict[str, Decimal] = {}
    by_person: dict[str, Decimal] = {}
    for row in rows.select_related("person"):
        by_work[row.operation] = by_work.get(row.operation, ZERO) + row.hours
        name = name_of(row.person)
        by_person[name] = by_person.get(name, ZERO) + row.hours
    quoted = {step.code: (step.name, step.hours) for step in accepted_option(build).work} if build else {}
    waiting = stopped_operations(build) if build else {}
    known = _operations(job)
    codes = list(quoted) or [code for code, one in known.items() if one.kind in BEFORE_THE_YES]
    codes += [code for code in by_work if code and code not in codes]
    work = [
        ClockedWork(
            operation=code,
            name=say(quoted[code][0]) if code in quoted else known[code].name if code in known else code,
            quoted=quoted[code][1] if code in quoted else None,
            worked=by_work.get(code, ZERO),
            waits=waiting[code].number if code in waiting else "",
        )
        for code in codes
    ]
    work.append(ClockedWork("", say("Other bench work"), None, by_work.get("", ZERO)))
    running = ClockRun.objects.running().filter(job=job).select_related("person")
    return JobClock(tuple(work), tuple(sorted(by_person.items())), tuple(running))


def _operations(job: Job) -> Mapping[str, Operation]:
    catalogue = known_catalogue(job.engine.type_code)
    return catalogue.operations if catalogue else {}


def job_line(job: Job, on: date) -> JobLine | None:
    """The clock on the job's page: hours so far, and who is at it now."""
    rows = WorkedHours.objects.filter(Q(job=job) | Q(build__quote__job=job)).values_list("hours", flat=True)
    running = list(ClockRun.objects.running().filter(job=job).select_related("person"))
    hours = say_figure(sum(rows, ZERO), 2)
    words = say("{hours} h so far", hours=hours)
    if running:
        names = ", ".join(name_of(run.person) for run in running)
        words = say("{hours} h so far; running: {names}", hours=hours, names=names)
    old = [run for run in running if timezone.localdate(run.started_at) < on]
    return JobLine(title=say("Hours"), words=words, url_name="clock", args=(job.pk,), waits=bool(old))
