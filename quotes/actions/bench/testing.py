"""Tests after the assembly, the last look before the engine leaves, and how each type is run in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.refused import NotInTheShop
from quotes.actions.saving import save_checked
from quotes.calc.bench.leaving.dyno import PowerRun, why_impossible
from quotes.calc.bench.leaving.final_questions import Said, answered, faults
from quotes.calc.bench.leaving.powers import PEAK_POWER
from quotes.calc.bench.leaving.running_in import BORE_IN_WORDS, RINGS_IN_WORDS, RunningInFigures
from quotes.models import FinalCheck, Job, RunningInRule, Step, TestRun
from quotes.queries.bench.ages.new_lives import new_lives_of
from quotes.queries.bench.leaving.way_out import POWER_AFTER, POWER_BEFORE
from quotes.queries.engines import known_catalogue


@dataclass(frozen=True, slots=True)
class RunResults:
    """What was run: values are name, figure and unit. Powers carry their dyno and correction."""

    name: str
    on: date
    values: tuple[tuple[str, str, str], ...] = ()
    dyno: str = ""
    correction: str = ""
    note: str = ""


@transaction.atomic
def keep_run(*, job: Job, run: RunResults, key: UUID, by: User, now: datetime) -> TestRun:
    """Keep a test; the first one begins the testing. The same key again gives the one that was kept.

    NotInTheShop, or ValidationError by field.
    """
    if kept := TestRun.objects.filter(key=key).first():
        return kept
    row = locked_job(job)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    _refuse_run(run, timezone.localdate(now))
    _refuse_impossible(run, row, now)
    if row.step == Step.ASSEMBLING:
        move(job=job, step=Step.TESTING, by=by, now=now)
    return save_checked(
        TestRun(
            key=key,
            job=row,
            name=run.name.strip(),
            dyno=run.dyno.strip(),
            correction=run.correction.strip(),
            values=[list(value) for value in run.values],
            note=run.note.strip(),
            on=run.on,
            at=now,
            by=by,
        )
    )


def _refuse_impossible(run: RunResults, job: Job, now: datetime) -> None:
    """A power that no such engine gives would be kept for good, and stand for nothing."""
    if run.name not in (POWER_BEFORE, POWER_AFTER):
        return
    read = PowerRun(
        after=run.name == POWER_AFTER,
        on=run.on,
        at=now,
        values=run.values,
        dyno=run.dyno,
        correction=run.correction,
        job=job.number,
        released_at=None,
    )
    if why := why_impossible(read, known_catalogue(job.engine.type_code)):
        raise ValidationError(f"{say(PEAK_POWER)}: {why}.")


def _refuse_run(run: RunResults, today: date) -> None:
    faults = {}
    if not run.name.strip():
        faults["name"] = say("Nothing is given: say what was run or measured.")
    if run.on > today:
        faults["on"] = say("{on} has not come yet: today, {today}, or earlier.", on=run.on, today=today)
    if not run.values and not run.note.strip():
        faults["note"] = say("Neither a figure nor a word is given: a test says what came of it.")
    if faults:
        raise ValidationError(faults)


@dataclass(frozen=True, slots=True)
class Looked:
    """The last look: answers and notes by question, and which components really are new or reconditioned."""

    said: Mapping[str, Said]
    notes: Mapping[str, str]
    done: tuple[str, ...]
    rings: str
    bore: str
    note: str = ""


@transaction.atomic
def keep_check(*, job: Job, looked: Looked, key: UUID, by: User, now: datetime) -> FinalCheck:
    """Keep the last look; the engine is ready with it. The same key again gives the one that was kept.

    NotInTheShop, or ValidationError by question or field: rider safety is answered, and well.
    """
    if kept := FinalCheck.objects.filter(key=key).first():
        return kept
    row = locked_job(job)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    answers = answered(looked.said, looked.notes)
    asked = {one.component: one.level for one in new_lives_of(row)}
    if wrong := faults(answers) | _unsaid(looked, asked):
        raise ValidationError(wrong)
    kept = save_checked(
        FinalCheck(
            key=key,
            job=row,
            answers=[one.model_dump(mode="json") for one in answers],
            asked=asked,
            done=[code for code in asked if code in looked.done],
            rings=looked.rings,
            bore=looked.bore,
            note=looked.note.strip(),
            at=now,
            by=by,
        )
    )
    move(job=job, step=Step.READY, by=by, now=now)
    return kept


def _unsaid(looked: Looked, asked: Mapping[str, str]) -> dict[str, str]:
    found = {}
    if looked.rings not in RINGS_IN_WORDS:
        found["rings"] = say(
            "“{given}” is none of: {allowed}.",
            given=looked.rings,
            allowed=", ".join(map(say, RINGS_IN_WORDS.values())),
        )
    if looked.bore not in BORE_IN_WORDS:
        found["bore"] = say(
            "“{given}” is none of: {allowed}.",
            given=looked.bore,
            allowed=", ".join(map(say, BORE_IN_WORDS.values())),
        )
    if strange := [code for code in looked.done if code not in asked]:
        found["done"] = say(
            "{named}: not agreed with the customer, so nothing of it can be new.", named=", ".join(strange)
        )
    return found


@transaction.atomic
def set_running_in(*, type_code: str, given: RunningInFigures | None) -> None:
    """Keep how one engine type is run in; None: by common practice again. ValidationError by field."""
    row = RunningInRule.objects.filter(type_code=type_code).first()
    if given is None:
        RunningInRule.objects.filter(type_code=type_code).delete()
        return
    row = row or RunningInRule(type_code=type_code)
    for name, value in given.model_dump().items():
        setattr(row, name, value)
    save_checked(row)
