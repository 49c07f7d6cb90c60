"""After the hand-over: service reported, reminders sent, failures settled, and what they teach."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.refused import ReportRunsBackwards
from quotes.actions.saving import save_checked
from quotes.calc.bench.said import exact
from quotes.models import Engine, Evidence, FailureReport, Job, Reminder, ServiceReport
from quotes.queries.bench.ages.after import engine_now, latest_report, released_job
from quotes.queries.bench.ages.lasted import Lasted, lasted_of, lasted_until

LONGEST = Decimal(100_000)


@dataclass(frozen=True, slots=True)
class Reported:
    """What somebody reports of an engine: service since the hand-over, as a running total."""

    amount: Decimal
    unit: str
    on: date
    name: str
    how: str
    duty: str = ""
    over_rev_pct: Decimal | None = None
    oil_used: str = ""
    filter_seen: str = ""
    note: str = ""


@transaction.atomic
def report_service(
    *, engine: Engine, told: Reported, key: UUID, now: datetime, corrects: bool = False
) -> ServiceReport:
    """Keep a report; the same key again gives the one that was kept.

    ReportRunsBackwards where it is less than the last one, or in another unit, unless it `corrects` that one;
    ValidationError by field.
    """
    if kept := ServiceReport.objects.filter(key=key).first():
        return kept
    row = Engine.objects.select_for_update(of=("self",)).get(pk=engine.pk)
    _refuse(told, timezone.localdate(now))
    job, last = released_job(row), latest_report(row)
    if last and not corrects and (told.unit != last.unit or told.amount < last.amount):
        raise ReportRunsBackwards(last.amount, last.unit, last.on)
    return save_checked(
        ServiceReport(
            key=key,
            engine=row,
            job=job,
            amount=told.amount,
            unit=told.unit,
            duty=told.duty or (job.duty if job else ""),
            on=told.on,
            over_rev_pct=told.over_rev_pct,
            oil_used=told.oil_used.strip(),
            filter_seen=told.filter_seen.strip(),
            note=told.note.strip(),
            name=told.name.strip(),
            how=told.how.strip(),
            at=now,
            corrects=last if corrects else None,
        )
    )


def _refuse(told: Reported, today: date) -> None:
    faults = {}
    if not ZERO <= told.amount <= LONGEST:
        faults["amount"] = say(
            "{amount} is not between 0 and {most}.", amount=exact(told.amount), most=exact(LONGEST)
        )
    if told.on > today:
        faults["on"] = say("{on} has not come yet: today, {today}, or earlier.", on=told.on, today=today)
    if not told.name.strip():
        faults["name"] = say("Nothing is given: say who reports it.")
    if faults:
        raise ValidationError(faults)


@transaction.atomic
def keep_reminder(*, engine: Engine, words: str, due_on: date | None, by: User, now: datetime) -> Reminder:
    """Write down that a reminder was sent; twice on one day is once."""
    on = timezone.localdate(now)
    if sent := Reminder.objects.filter(engine=engine, sent_on=on).first():
        return sent
    if not words.strip():
        raise ValidationError({"words": say("Nothing is given: what was sent is kept.")})
    reminder = Reminder(engine=engine, words=words.strip(), due_on=due_on, sent_on=on, at=now, by=by)
    return save_checked(reminder)


@dataclass(frozen=True, slots=True)
class Failure:
    """A comeback or failure, what the evidence says, and who pays which share (per cent)."""

    component: str
    words: str
    outcome: str
    on: date
    who_pays: str
    shop_share_pct: Decimal
    place: str = ""
    opened_elsewhere: bool = False
    seal_whole: bool | None = None
    evidence: str = ""
    settlement: str = ""


@transaction.atomic
def keep_failure(
    *,
    engine: Engine,
    told: Failure,
    key: UUID,
    by: User,
    now: datetime,
    job: Job | None = None,
    comeback_job: Job | None = None,
) -> FailureReport:
    """Keep the report and what it teaches: how long that component lasted, where its age is known.

    The same key again gives the one that was kept; ValidationError by field.
    """
    if kept := FailureReport.objects.filter(key=key).first():
        return kept
    _refuse_failure(told, timezone.localdate(now))
    lasted = lasted_until(engine, engine_now(engine), told.component, told.outcome, told.on)
    age = lasted.age if lasted else None
    row = save_checked(
        FailureReport(
            key=key,
            engine=engine,
            job=job or released_job(engine),
            comeback_job=comeback_job,
            component=told.component,
            place=told.place.strip(),
            words=told.words.strip(),
            outcome=told.outcome,
            amount=age.amount if age else None,
            unit=age.unit if age else "",
            opened_elsewhere=told.opened_elsewhere,
            seal_whole=told.seal_whole,
            evidence=told.evidence.strip(),
            who_pays=told.who_pays,
            shop_share_pct=told.shop_share_pct,
            settlement=told.settlement.strip(),
            on=told.on,
            at=now,
            by=by,
        )
    )
    if lasted is not None:
        about = {"type_code": engine.type_code, "component": told.component, "on": told.on}
        save_checked(Evidence(failure=row, job=row.job, **about, **_told_by(lasted)))
    return row


def _refuse_failure(told: Failure, today: date) -> None:
    if not told.words.strip():
        raise ValidationError({"words": say("Nothing is given: say what happened.")})
    if told.on > today:
        raise ValidationError({"on": say("{on} has not come yet.", on=told.on)})


@transaction.atomic
def gather_evidence(*, job: Job, now: datetime) -> int:
    """Keep what a job's teardown tells of every component with a life: how many rows it made.

    Run once a job, before ages are reset; again it makes nothing.
    """
    made = 0
    done = set(Evidence.objects.filter(job=job, failure=None).values_list("component", flat=True))
    for lasted in lasted_of(job, timezone.localdate(now)):
        if lasted.component in done:
            continue
        save_checked(
            Evidence(
                job=job,
                type_code=job.engine.type_code,
                component=lasted.component,
                on=timezone.localdate(now),
                **_told_by(lasted),
            )
        )
        made += 1
    return made


def _told_by(lasted: Lasted) -> dict[str, Any]:
    """What a row of evidence keeps of how long one component lasted."""
    return {
        "duty": lasted.age.duty,
        "tier": lasted.age.tier,
        "outcome": lasted.outcome,
        "unit": lasted.age.unit,
        "entry": min(lasted.entry, lasted.age.amount),
        "exit": lasted.age.amount,
        "seen_good_at": lasted.entry if lasted.outcome == "past_limit" else None,
        "ran": lasted.ran,
        "ran_at_entry": lasted.ran_at_entry,
    }
