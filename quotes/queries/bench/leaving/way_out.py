"""The way out of the workshop: tests, the last look, what is still to pay, and the release."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Sum

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say, say_count, to_say
from quotes.calc.bench.leaving.final_questions import Answer
from quotes.calc.bench.leaving.powers import Compared, compare_powers, peak_of
from quotes.calc.bench.leaving.running_in import Bore, Rings, RunningIn, RunningInFigures, running_in
from quotes.models import FinalCheck, Job, OldParts, OpenItem, Release, RunningInRule, TestRun
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.jobs import build_of
from quotes.queries.books.build import build_account
from quotes.queries.engines import known_catalogue

POWER_BEFORE, POWER_AFTER = to_say("Power before"), to_say("Power after")
RUNS: tuple[str, ...] = (
    POWER_BEFORE,
    to_say("Running-in"),
    POWER_AFTER,
    to_say("Leak-down after"),
    to_say("Oil pressure hot"),
)
"""Tests that have rows of their own to fill in; any other has a name of its own."""


@dataclass(frozen=True, slots=True)
class Money:
    """Where the money of a build stands: `open_sum` with tax, what was neither paid nor held."""

    open_sum: Decimal
    hours_quoted: Decimal
    hours_clocked: Decimal


def money_of_job(job: Job, on: date) -> Money:
    """What is still to pay for a job's build, invoiced or not, less deposits held; nought without one."""
    build = build_of(job)
    if build is None:
        return Money(ZERO, ZERO, ZERO)
    account = build_account(build, on)
    items = OpenItem.objects.filter(invoice__build=build).aggregate(sum=Sum("open_amount"))["sum"] or ZERO
    waiting = ZERO if account.finally_invoiced else account.to_invoice_gross - account.deposit_left
    left = round_half_up(items + waiting, account.decimals)
    return Money(max(left, ZERO), account.hours_quoted, account.hours_clocked)


def last_check(job: Job) -> FinalCheck | None:
    """The last look that stands."""
    return FinalCheck.objects.filter(job=job).select_related("by").order_by("at", "pk").last()


def answers_of(check: FinalCheck) -> tuple[Answer, ...]:
    return tuple(Answer.model_validate(one) for one in check.answers)


def old_parts_agreed(job: Job) -> str:
    """What was agreed of the old parts when the engine was booked: returned or scrapped; else empty."""
    agreed = job.booking.old_parts if job.booking else ""
    return agreed if agreed in (OldParts.RETURNED, OldParts.SCRAPPED) else ""


def release_of(job: Job) -> Release | None:
    """The release of a job, with its files."""
    return Release.objects.filter(job=job).select_related("pdf", "card", "by").first()


def cylinders_of(job: Job) -> int:
    """How many cylinders the engine has; 1 where its type is gone."""
    catalogue = known_catalogue(job.engine.type_code)
    return catalogue.engine_type.cylinders if catalogue else 1


def power_compared(job: Job) -> Compared | None:
    """The last power before held against the last after; None while one of them is missing."""
    runs = {row.name: row for row in TestRun.objects.filter(job=job, name__in=(POWER_BEFORE, POWER_AFTER))}
    if len(runs) < 2:
        return None
    pulls = [peak_of(run.values, run.dyno, run.correction) for run in (runs[POWER_BEFORE], runs[POWER_AFTER])]
    before, after = pulls
    return compare_powers(before, after) if before and after else None


def card_of(check: FinalCheck, catalogue: EngineCatalogue, duty: str) -> RunningIn:
    """The running-in card that follows from the last look."""
    row = RunningInRule.objects.filter(type_code=catalogue.engine_type.code).first()
    basis = catalogue.duties[duty].basis if duty in catalogue.duties else "miles"
    rings: Rings = "cast_iron" if check.rings == "cast_iron" else "thin_steel"
    bore: Bore = "iron" if check.bore == "iron" else "plated"
    return running_in(
        [code for code in check.done if check.asked.get(code) == "new"] + _bored(check),
        rings="not_renewed" if check.rings == "not_renewed" else rings,
        bore=bore,
        by_hours=basis == "hours_mx",
        rule=rule_of(row) if row else None,
    )


def _bored(check: FinalCheck) -> list[str]:
    """A bore that was plated or honed anew is run in as a new one."""
    return ["bore"] if "bore" in check.done and check.asked.get("bore") == "done" else []


def rule_of(row: RunningInRule) -> RunningInFigures:
    return RunningInFigures(
        unit=row.unit,
        rev_limit_pct=row.rev_limit_pct,
        revs_until=row.revs_until,
        oil_at=row.oil_at,
        recheck_at=row.recheck_at,
        manual=row.manual,
        page=row.page,
        words=row.words,
    )


def tests_line(job: Job, on: date) -> JobLine | None:
    """Tests and the last look on the job's page; nothing before it is put together."""
    runs, check = TestRun.objects.filter(job=job).count(), last_check(job)
    if not runs and check is None and job.step not in ("assembling", "testing", "ready", "released"):
        return None
    words = say("no test written down")
    if runs:
        words = say_count("{count} test written down", "{count} tests written down", runs)
    looked = say("looked over") if check else say("the last look is still to come")
    waits = job.step == "testing" and check is None
    return JobLine(
        title=say("Tests and final check"),
        words=f"{words}, {looked}",
        url_name="job-test",
        args=(job.pk,),
        waits=waits,
    )


def release_line(job: Job, on: date) -> JobLine | None:
    """The release on the job's page, once the engine was looked over or has gone."""
    row = release_of(job)
    if row is not None:
        words, waits = say("{number}, to {name}", number=row.number, name=row.released_to), False
    elif job.left_at is None and last_check(job) is not None:
        words, waits = say("may be handed over once it is paid"), True
    else:
        return None
    return JobLine(title=say("Release"), words=words, url_name="job-release", args=(job.pk,), waits=waits)
