"""What an engine has run when its job is done: its record, and what intake or reports know beyond it."""

from __future__ import annotations

from decimal import Decimal
from typing import cast

from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import EngineAsked, Segment, Unit
from quotes.calc.bench.ages.new_lives import service_of
from quotes.calc.bench.stated import run_since
from quotes.models import Job, ServiceReport
from quotes.queries.engines import engine_asked


def engine_at_end(job: Job, catalogue: EngineCatalogue) -> EngineAsked:
    """The engine by its record, with what it ran until it came in where that is not on the record yet.

    A history that nobody knows is not begun by this: the parts that stay in it would seem younger.
    """
    asked = engine_asked(job.engine)
    if asked.history is None:
        return asked
    since = _stated(job, asked) or _reported(job, asked, catalogue)
    return asked.model_copy(update={"history": (*asked.history, since)}) if since else asked


def _stated(job: Job, asked: EngineAsked) -> Segment | None:
    """What intake wrote down beyond the record."""
    duty = job.duty or (asked.history[-1].duty if asked.history else "")
    if job.service_amount is None or not duty:
        return None
    since = run_since(job.service_amount, str(job.service_unit), asked.history)
    return _stretch(asked, since, str(job.service_unit), duty, job) if since else None


def _reported(job: Job, asked: EngineAsked, catalogue: EngineCatalogue) -> Segment | None:
    """What the customer reported since the last hand-over, where nobody has put it on the record since."""
    if job.service_amount is not None:
        return None
    reports = ServiceReport.objects.filter(engine=job.engine_id, at__lt=job.received_at).standing()
    last = reports.exclude(job=None).order_by("on", "pk").last()
    duty = last.duty or (asked.history[-1].duty if asked.history else "") if last else ""
    if last is None or not last.amount or not duty or not _ends_at_a_renewal(asked, catalogue):
        return None
    return _stretch(asked, last.amount, str(last.unit), duty, job)


def _ends_at_a_renewal(asked: EngineAsked, catalogue: EngineCatalogue) -> bool:
    """Whether the record still stands where parts were renewed last: at the last hand-over."""
    return any(
        service_of(asked, renewal.unit, catalogue) <= renewal.at
        for renewal in asked.renewed.values()
        if any(stretch.unit == renewal.unit for stretch in asked.history or ())
    )


def _stretch(asked: EngineAsked, amount: Decimal, unit: str, duty: str, job: Job) -> Segment:
    """In the tune that was fitted until now."""
    last = asked.history[-1] if asked.history else None
    received = timezone.localdate(job.received_at)
    start = last.end if last and last.end and last.end <= received else None
    tier = asked.fitted or (last.tier if last else "refresh")
    return Segment(amount=amount, unit=cast(Unit, unit), duty=duty, tier=tier, start=start, end=received)
