"""One service of a season opened: its job, its chance, and where its dates come from."""

from __future__ import annotations

from datetime import date

from catalogue.calc.said import say, to_say
from quotes.calc.life.stretches import DAYS_PER_YEAR
from quotes.calc.life.units import UNITS_OF_BASIS, season
from quotes.calc.origin.chance import locks_in_service, of_service
from quotes.calc.origin.dates import ready
from quotes.calc.origin.hours import all_hours
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.reach import good_for
from quotes.calc.origin.sums import gross
from quotes.calc.origin.values import TIMES, Origin, number, on_day, parts_in_words
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.measures import events_planned, meeting_of
from quotes.calc.sheet.season_values import SeasonPlan, SeasonService
from quotes.calc.sheet.words import amount_in_words, estimate_in_words, first_large

LEGS = to_say(
    "The engine is opened at even legs, as few as the lives inside it, the floor of the chance and the "
    "ceiling for rider safety allow."
)


def service(told: Explained, job: WorkedJob) -> Origin:
    """A service with the job before it: what is renewed and why, and all its figures."""
    planned = planned_service(told, job)
    return Origin(
        say("Service {number}: {done}", number=job.number, done=planned.done),
        _use(job, job.use),
        say(LEGS),
        parts=(
            gross(job),
            all_hours(job),
            of_service(told, job),
            locks_in_service(told, job),
            good_for(told, job),
            dates(told, job),
            renewed(told, job),
        ),
        key=job.service_key(),
    )


def renewed(told: Explained, job: WorkedJob) -> Origin:
    """What is renewed or put right before it, each with what brought it in."""
    components = told.catalogue.components
    parts = tuple(
        Origin(
            first_large(components[code].name),
            say("renewed") if fate == "renewed" else say("put right"),
            job.brought_by(("new" if fate == "renewed" else "done", code)),
            key=job.service_key(f"component:{code}") if code in told.hazards else "",
        )
        for code, fate in sorted(job.fates.items())
    )
    return Origin(say("Renewed or put right before it"), parts_in_words(len(parts)), parts=parts)


def dates(told: Explained, job: WorkedJob) -> Origin:
    """The day on which the engine is there for the job, and that on which it is ready."""
    planned = planned_service(told, job)
    parts = (opened_on(told, job), ready(job)) if job.number > 1 else (ready(job),)
    words = say("ready {day}", day=on_day(planned.ready.p80))
    if job.number > 1:
        words = say(
            "about {opened}, ready {ready}",
            opened=on_day(planned.opened_on),
            ready=on_day(planned.ready.p80),
        )
    return Origin(say("Dates"), words, parts=parts, key=job.service_key("dates"))


def opened_on(told: Explained, job: WorkedJob) -> Origin:
    """The day that even use brings the opening to. KeyError for the first job."""
    plan, planned = _season(told), planned_service(told, job)
    if job.before is None:
        raise KeyError(job.service_key("opened_on"))
    return Origin(
        say("Opened before service {number}", number=job.number),
        say("about {day}", day=on_day(planned.opened_on)),
        say("Use is spread evenly over the year of the duty."),
        parts=(
            _begins(told, plan.begins_on),
            _days_until(told, job, (planned.opened_on - plan.begins_on).days),
            _use_before(told, job),
            _meetings(told, job),
        ),
        adds="sum",
        exact=planned.opened_on.toordinal(),
        key=job.service_key("opened_on"),
    )


def _days_until(told: Explained, job: WorkedJob, days: int) -> Origin:
    whole = season(told.case.duty)
    return Origin(
        say("Days until then"),
        say("{count} days", count=days),
        say(
            "{use} of a season of {season}: {share} {times} {days} days, to the nearest day.",
            use=_use(job, job.begins),
            season=_use(job, whole),
            share=number(job.begins / whole, 3),
            times=TIMES,
            days=number(DAYS_PER_YEAR),
        ),
        told.case.duty.source,
        exact=days,
    )


def _begins(told: Explained, begins_on: date) -> Origin:
    first, promised = told.case.request.planned.first_meeting, told.option.ready.p80
    if first is None:
        why = say("No first meeting was named: the day for which the engine is promised.")
    elif promised > first:
        why = say(
            "The engine is promised for then; the first meeting, {day}, is before it.", day=on_day(first)
        )
    else:
        why = say("The first meeting, as the customer named it.")
    exact = begins_on.toordinal()
    return Origin(say("The season begins"), on_day(begins_on), why, exact=exact, key="ready")


def _use_before(told: Explained, job: WorkedJob) -> Origin:
    """Explains the day; its own parts are the services before."""
    legs = told.jobs[: job.number - 1]
    parts = tuple(Origin(say("Service {number}", number=leg.number), _use(leg, leg.use)) for leg in legs)
    return Origin(say("Use before it"), _use(job, job.begins), say(LEGS), parts=parts)


def _meetings(told: Explained, job: WorkedJob) -> Origin:
    meeting, count = meeting_of(told.case), events_planned(told.case)
    by_then = number(job.begins / meeting, 1) if meeting else "0"
    return Origin(
        say("Meetings by then"),
        say("{count} of {all}", count=by_then, all=count),
        say("A meeting is {use}: the planned service, divided evenly.", use=_use(job, meeting)),
    )


def _use(job: WorkedJob, use: float) -> str:
    """Amounts of use in the unit of the duty, tenths at most."""
    unit = UNITS_OF_BASIS[job.case.duty.basis]
    return estimate_in_words(use, unit) if use >= 100 else amount_in_words(round(use, 1), unit)


def planned_service(told: Explained, job: WorkedJob) -> SeasonService:
    """What the season says of a service. KeyError where the option has none."""
    services = _season(told).services
    if job.number > len(services):
        raise KeyError(job.service_key())
    return services[job.number - 1]


def _season(told: Explained) -> SeasonPlan:
    if told.option.season is None:
        raise KeyError("season")
    return told.option.season
