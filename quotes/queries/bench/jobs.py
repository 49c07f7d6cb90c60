"""Jobs in the workshop, and the way between a job, its build and its engine's catalogue."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from catalogue.queries import engine_catalogue
from quotes.models import Acceptance, Job
from quotes.models.bench.job import JobQuerySet
from quotes.queries.bench.states import with_facts, with_place


def build_of(job: Job) -> Acceptance | None:
    """What was said yes to, where it was."""
    return Acceptance.objects.select_related("quote", "revision").filter(quote=job.quote_id).first()


def catalogue_of(job: Job) -> EngineCatalogue:
    """The catalogue of the job's engine type; LookupError where there is none any more."""
    return engine_catalogue(job.engine.type_code)


LEFT_DAYS = 7
"""So long an engine that has left stands on the day sheet."""
MOST = 60
"""So many engines stand on a day sheet; the list of jobs holds the rest."""
MOST_LEFT = 10
SHOWN = (
    *("number", "tag", "step", "hold_because", "received_at", "left_at"),
    *("engine__number", "engine__type_code"),
)
"""What a day sheet says of an engine: the rest is not read."""


def jobs_here() -> list[Job]:
    """Engines that are here, the longest here first; one query."""
    # Their state is said from their facts: asked for its place, a database looks for each fact twice.
    rows = Job.objects.in_the_shop().select_related("engine").only(*SHOWN)
    return list(with_facts(rows).order_by("received_at", "pk")[:MOST])


def jobs_left(on: date) -> list[Job]:
    """Engines that have left within the week, the last first; one query."""
    week_ago = timezone.make_aware(datetime.combine(on - timedelta(days=LEFT_DAYS), datetime.min.time()))
    rows = Job.objects.filter(left_at__gte=week_ago).select_related("engine", "customer")
    rows = rows.only(*SHOWN, "customer__name")
    return list(rows.order_by("-left_at", "-pk")[:MOST_LEFT])


def jobs_listed(on: date) -> JobQuerySet:
    """Jobs with all that a list shows of them, each with its place in the order of the work."""
    rows = Job.objects.joined().select_related("quote__latest")
    return with_place(rows.defer("quote__request", "quote__latest__request", "quote__latest__sheet"))
