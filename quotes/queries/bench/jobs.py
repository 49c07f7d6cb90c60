"""Jobs in the workshop, and the way between a job, its build and its engine's catalogue."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from django.db.models import Q
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from catalogue.queries import engine_catalogue
from quotes.calc.bench.state import STATES
from quotes.models import Acceptance, Job
from quotes.models.bench.job import JobQuerySet
from quotes.queries.bench.states import with_facts


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


def jobs_today(on: date) -> list[Job]:
    """Engines that are here and those that left within the week, the longest here first; one query."""
    week_ago = timezone.make_aware(datetime.combine(on - timedelta(days=LEFT_DAYS), datetime.min.time()))
    rows = jobs_listed(on).filter(Q(left_at=None) | Q(left_at__gte=week_ago))
    return list(rows.order_by("received_at", "pk")[:MOST])


def state_in_list(job: Job) -> str:
    """Where a job stands that was read with `jobs_listed`."""
    return STATES[job.place]  # type: ignore[attr-defined]


def jobs_listed(on: date) -> JobQuerySet:
    """Jobs with all that a list shows of them, each with its place in the order of the work."""
    rows = Job.objects.joined().select_related("quote__latest")
    return with_facts(rows.defer("quote__request", "quote__latest__request", "quote__latest__sheet"))
