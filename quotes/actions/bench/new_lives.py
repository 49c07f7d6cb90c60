"""The ages of an engine as it leaves: what its teardown taught is kept first, then new lives begin."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.actions.bench.after import gather_evidence
from quotes.actions.bench.part_moves import MovedWhen, recondition_held, take_out
from quotes.actions.bench.release_refused import AgesUnclear, AgreedSince
from quotes.actions.engines import update_engine
from quotes.calc.ask.request import EngineAsked
from quotes.calc.bench.ages.new_lives import Level, handed_over
from quotes.calc.life.units import CannotConvert
from quotes.models import Engine, FinalCheck, Job, PartStay
from quotes.queries.bench.ages.at_the_end import engine_at_end
from quotes.queries.bench.ages.new_lives import new_lives_of, standing_option
from quotes.queries.bench.ages.stays import EngineNow
from quotes.queries.bench.jobs import build_of, catalogue_of
from quotes.queries.engines import engine_asked


def begin_new_lives(*, job: Job, check: FinalCheck, by: User, now: datetime) -> None:
    """Inside the releasing transaction, once: the record brought up to date, evidence kept, ages begun anew.

    AgreedSince where the plan is another than the last look was asked about; AgesUnclear, NotMoved.
    """
    _refuse_agreed_since(job, check)
    catalogue = catalogue_of(job)
    try:
        _write(job, engine_at_end(job, catalogue))
        gather_evidence(job=job, now=now)
        _take_out_replaced(job, check, by, now)
        mended = [code for code in check.done if check.asked.get(code) == "done"]
        recondition_held(job=job, components=mended, by=by, now=now)
        after = handed_over(
            asked := engine_asked(job.engine),
            _done(job, check),
            catalogue,
            on=timezone.localdate(now),
            unit=EngineNow(job.engine, asked, catalogue).unit,
            tune=_tune(job),
        )
    except CannotConvert as why:
        raise AgesUnclear(str(why)) from None
    _write(job, after)


def _refuse_agreed_since(job: Job, check: FinalCheck) -> None:
    planned = {one.component: one for one in new_lives_of(job)}
    other = {code for code, one in planned.items() if check.asked.get(code) != one.level}
    other |= check.asked.keys() - planned.keys()
    if other:
        raise AgreedSince([planned[code].name if code in planned else code for code in sorted(other)])


def _write(job: Job, asked: EngineAsked) -> None:
    """Keep the record and have the job's engine read it anew."""
    engine = Engine.objects.get(pk=job.engine_id)
    update_engine(engine=engine, number=engine.number, asked=asked, expected_version=engine.version)
    job.engine = Engine.objects.with_history().get(pk=job.engine_id)


def _done(job: Job, check: FinalCheck) -> dict[str, Level]:
    """What really was renewed or reconditioned, but for a part that was fitted with an age of its own."""
    own = PartStay.objects.filter(engine=job.engine_id, until_on=None)
    carried = set(own.values_list("part__component", flat=True))
    return {code: check.asked[code] for code in check.done if code not in carried}


def _take_out_replaced(job: Job, check: FinalCheck, by: User, now: datetime) -> None:
    """A part with an age of its own that was in it before, and in whose place a new one stands, is out."""
    new = [code for code in check.done if check.asked.get(code) == "new"]
    before = PartStay.objects.filter(
        engine=job.engine_id,
        until_on=None,
        part__component__in=new,
        from_on__lt=timezone.localdate(job.received_at),
    )
    for stay in before.select_related("part"):
        take_out(part=stay.part, move=MovedWhen(timezone.localdate(now)), by=by, now=now)


def _tune(job: Job) -> str | None:
    """The tune that was built; None without a build: what was fitted stays."""
    build = build_of(job)
    return standing_option(build).tune if build else None
