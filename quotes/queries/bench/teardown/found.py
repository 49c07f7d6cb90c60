"""What the teardown of a job shows, as the quote's sums take it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, say_count
from quotes.calc.ask.request import Observed, Reading
from quotes.calc.bench.teardown.into_request import Shown
from quotes.models import FindingSeen, Job, Judged, Measured, ReadWhen, Verdict
from quotes.models.bench.teardown import MeasuredQuerySet
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.leaving.dyno import measured_power

OUT_OF_THE_SUMS = (ReadWhen.MACHINED,)
"""What came back from machine work says how the part is now, not what wore."""


def readings_of(job: Job) -> tuple[Reading, ...]:
    """Standing readings that have a standard and a limit; the bound of the standard nearest the limit."""
    return _readings(Measured.objects.standing().filter(job=job))


def _readings(rows: MeasuredQuerySet) -> tuple[Reading, ...]:
    rows = rows.exclude(when__in=OUT_OF_THE_SUMS).exclude(limit=None).exclude(verdict=Verdict.NO_LIMIT)
    return tuple(_reading(row) for row in rows.order_by("measured_at", "pk"))


def shown_by(job: Job) -> Shown:
    """All that the teardown of a job shows and has ever shown, as a request takes it."""
    seen = FindingSeen.objects.filter(job=job).exclude(finding_code="").order_by("seen_at", "pk")
    return Shown(
        readings=readings_of(job),
        findings=findings_of(job),
        readings_entered=_readings(Measured.objects.filter(job=job)),
        findings_entered=tuple(observed(row) for row in seen),
        measured_power=measured_power(job.engine),
    )


def _reading(row: Measured) -> Reading:
    limit = row.limit if row.limit is not None else row.value
    nearest = row.standard_high if row.bad_when == "above" else row.standard_low
    return Reading(
        component=row.component,
        quantity=row.name,
        value=_plain(row.value),
        unit=row.unit,
        standard=_plain(nearest if nearest is not None else limit),
        limit=_plain(limit),
        bad_when="below" if row.bad_when == "below" else "above",
        place=row.place,
        limit_source=row.limit_source,
    )


def _plain(value: Decimal) -> Decimal:
    """0.400000 as 0.4: what is printed names no digits that nobody read."""
    return Decimal(f"{value.normalize():f}")


def findings_of(job: Job) -> tuple[Observed, ...]:
    """Standing findings of the catalogue; those in free words and those judged serviceable are left out."""
    rows = FindingSeen.objects.standing().filter(job=job).exclude(finding_code="")
    rows = rows.exclude(judged__in=(Judged.SERVICEABLE, Judged.UNTIL)).order_by("seen_at", "pk")
    return tuple(observed(row) for row in rows)


def observed(row: FindingSeen) -> Observed:
    return Observed(
        id=row.finding_code, component=row.component or None, place=row.place, pct_over=row.pct_over
    )


def job_line(job: Job, on: date) -> JobLine | None:
    """The teardown on the job's page: how much was read and seen, and what is past its limit."""
    verdicts = list(Measured.objects.standing().filter(job=job).values_list("verdict", flat=True))
    seen = FindingSeen.objects.standing().filter(job=job).count()
    past = verdicts.count(Verdict.PAST)
    words = f"{_readings_counted(len(verdicts))}, {_findings_counted(seen)}"
    if past:
        words = say_count(
            "{words}; {count} past its limit", "{words}; {count} past their limits", past, words=words
        )
    return JobLine(title=say("Teardown"), words=words, url_name="teardown", args=(job.pk,))


def _readings_counted(count: int) -> str:
    return say_count("{count} reading", "{count} readings", count) if count else say("no readings yet")


def _findings_counted(count: int) -> str:
    return say_count("{count} finding", "{count} findings", count) if count else say("no findings yet")
