"""Everything that was advised and not taken, from wherever it was said: one list for record and paper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils import timezone

from catalogue.calc.said import say
from quotes.models import DeclinedAdvice, ExtraWork, ExtraWorkState, Job
from quotes.queries.accepted import accepted_option
from quotes.queries.sheets import request_of


@dataclass(frozen=True, slots=True)
class Declined:
    """One piece of advice that was not taken: what, the risk, who said so, when and how."""

    words: str
    risk: str
    said_by: str
    how: str
    on: date
    rider_safety: bool


def declined_of(job: Job) -> tuple[Declined, ...]:
    """By day: lines left by a signed refusal at the yes, extra work declined, and other advice."""
    found = [*_advice(job)]
    quote = job.quote
    if quote is not None and quote.accepted_at is not None:
        found += [*_at_the_yes(job), *_extra_work(job)]
    return tuple(sorted(found, key=lambda one: (one.on, one.words)))


def _advice(job: Job) -> list[Declined]:
    rows = DeclinedAdvice.objects.filter(job=job)
    return [
        Declined(row.words, row.risk, row.said_by, row.how, timezone.localdate(row.at), row.rider_safety)
        for row in rows
    ]


def _at_the_yes(job: Job) -> list[Declined]:
    assert job.quote is not None
    build = job.quote.acceptance
    refused = {one.component: one for one in request_of(job.quote).refusals}
    option = accepted_option(build)
    return [
        Declined(
            words=risk.name,
            risk=risk.sentence,
            said_by=risk.refused_by,
            how=say("by a signed refusal"),
            on=refused[code].on if code in refused else timezone.localdate(build.accepted_at),
            rider_safety=risk.rider_safety,
        )
        for code, risk in option.left.items()
        if risk.refused_by
    ]


def _extra_work(job: Job) -> list[Declined]:
    rows = ExtraWork.objects.filter(build__quote=job.quote, state=ExtraWorkState.DECLINED)
    return [
        Declined(
            words=f"{row.number}: {row.words}",
            risk=row.risk_if_declined,
            said_by=row.answered_by,
            how=row.answered_how,
            on=timezone.localdate(row.answered_at),
            rider_safety=row.rider_safety,
        )
        for row in rows.select_related("build__quote")
        if row.answered_at is not None
    ]
