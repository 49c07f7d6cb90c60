"""Engines after the hand-over: service reported since, and what falls due next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import cast

from django.db.models import Prefetch
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.ask.request import EngineAsked, Segment, Unit
from quotes.calc.bench.ages.next_due import NextDue, bundle, next_due
from quotes.calc.life.units import CannotConvert
from quotes.models import Engine, Job, ServiceReport
from quotes.models.engine import EngineQuerySet
from quotes.queries.bench.ages.stays import EngineNow, carried_by, parts_of_engines
from quotes.queries.engines import engine_asked, known_catalogue


def with_after(engines: EngineQuerySet) -> EngineQuerySet:
    """Engines with all that is asked of them here, in a number of queries that does not grow with them."""
    jobs = Job.objects.select_related("release").defer("release__sheet")
    known = (Prefetch("jobs", jobs), "reports", "reminders", parts_of_engines())
    return engines.with_history().prefetch_related(*known)


def released_job(engine: Engine) -> Job | None:
    """The job that the engine left last after a build, with its release."""
    released = [job for job in engine.jobs.all() if hasattr(job, "release")]
    return max(released, key=lambda job: job.release.at, default=None)


def latest_report(engine: Engine) -> ServiceReport | None:
    """The last report since the engine left; None once it has come back, for intake has taken its service."""
    reports = list(engine.reports.all())
    corrected = {row.corrects_id for row in reports}
    standing = [row for row in reports if row.pk not in corrected]
    last = max(standing, key=lambda row: (row.on, row.pk), default=None)
    if last is None or any(job.received_at > last.at for job in engine.jobs.all()):
        return None
    return last


def engine_now(engine: Engine, known: EngineCatalogue | None = None) -> EngineAsked:
    """The engine with its history, what was reported since it left, and parts with ages of their own."""
    recorded = recorded_now(engine)
    carried = carried_by(EngineNow(engine, recorded, known))
    return recorded.model_copy(update={"carried": carried}) if carried else recorded


def recorded_now(engine: Engine) -> EngineAsked:
    """The engine with its history and what was reported since it left."""
    asked, last = engine_asked(engine), latest_report(engine)
    if last is None or asked.history is None or not last.amount:
        return asked
    tier = engine.fitted or (asked.history[-1].tier if asked.history else "refresh")
    duty = last.duty or (asked.history[-1].duty if asked.history else "")
    if not duty:
        return asked
    job = released_job(engine)
    start = timezone.localdate(job.release.at) if job else None
    since = Segment(
        amount=last.amount, unit=cast(Unit, last.unit), duty=duty, tier=tier, start=start, end=last.on
    )
    return asked.model_copy(update={"history": (*asked.history, since)})


FORESEEN = timedelta(days=3 * 365)


@dataclass(frozen=True, slots=True)
class EngineDue:
    """What falls due on one engine: the whole list, what to take along, and when somebody was reminded."""

    engine: Engine
    type_name: str
    duty: str
    dues: tuple[NextDue, ...]
    bundle: tuple[NextDue, ...]
    reported: ServiceReport | None
    reminded_on: date | None
    unknown: str = ""
    """Why nothing can be said, where that is so."""

    @property
    def first(self) -> NextDue | None:
        """The first that opens something; oil and filters are the customer's own to change."""
        return next((due for due in self.dues if due.act != "change"), None)

    @property
    def soon(self) -> tuple[NextDue, ...]:
        """Within three years of the first; what comes after that is a guess about a guess."""
        return tuple(due for due in self.dues if due.on <= self.dues[0].on + FORESEEN)

    @property
    def later(self) -> tuple[NextDue, ...]:
        return self.dues[len(self.soon) :]


def due_of(engine: Engine, on: date, known: EngineCatalogue | None = None) -> EngineDue:
    """What falls due next on an engine, from the service known on that day; `known` where it was read."""
    last = latest_report(engine)
    reminded_on = max((row.sent_on for row in engine.reminders.all()), default=None)
    catalogue = known or known_catalogue(engine.type_code)
    if catalogue is None:
        return _unknown(engine, say("its engine type is not in the catalogue any more"), last, reminded_on)
    asked = engine_now(engine, catalogue)
    duty = _duty_of(engine, asked)
    if asked.history is None:
        return _unknown(engine, say("its service is not known"), last, reminded_on, catalogue)
    if duty is None or duty not in catalogue.duties:
        return _unknown(engine, say("nobody has said what it is used for"), last, reminded_on, catalogue)
    unit = asked.history[-1].unit if asked.history else None
    try:
        dues = next_due(asked, duty, catalogue, on=last.on if last else on, unit=unit)
    except CannotConvert as wrong:
        return _unknown(engine, str(wrong), last, reminded_on, catalogue)
    return EngineDue(
        engine=engine,
        type_name=catalogue.engine_type.name,
        duty=catalogue.duties[duty].name,
        dues=dues,
        bundle=bundle(dues, catalogue),
        reported=last,
        reminded_on=reminded_on,
    )


def _duty_of(engine: Engine, asked: EngineAsked) -> str | None:
    if asked.history:
        return asked.history[-1].duty
    told = [job for job in engine.jobs.all() if job.duty]
    return max(told, key=lambda job: job.received_at).duty if told else None


def _unknown(
    engine: Engine,
    why: str,
    last: ServiceReport | None,
    reminded_on: date | None,
    catalogue: EngineCatalogue | None = None,
) -> EngineDue:
    name = catalogue.engine_type.name if catalogue else engine.type_code
    return EngineDue(engine, name, "", (), (), last, reminded_on, why)


MOST = 500
"""So many engines a list works out; older ones have not been seen for years."""


def due_list(on: date) -> list[EngineDue]:
    """Engines that a build has left with, the first due at the top; unknown ones last."""
    left = Engine.objects.filter(jobs__release__isnull=False).distinct().order_by("-pk")
    engines = with_after(left)[:MOST]
    types = {engine.type_code for engine in engines}
    known = {code: found for code in sorted(types) if (found := known_catalogue(code))}
    dues = [due_of(engine, on, known.get(engine.type_code)) for engine in engines]
    return sorted(dues, key=lambda one: (one.first.on if one.first else date.max, one.engine.pk))
