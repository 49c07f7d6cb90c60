"""Keeping advice that was not taken."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.books.extra_work import refuse_unsafe, refuse_unsaid
from quotes.actions.saving import save_checked
from quotes.models import DeclinedAdvice, Job
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of


@transaction.atomic
def keep_declined(
    *,
    job: Job,
    words: str,
    risk: str,
    rider_safety: bool,
    said_by: str,
    how: str,
    key: UUID,
    by: User,
    now: datetime,
    component: str = "",
) -> DeclinedAdvice:
    """Write down what was advised and refused, by whom and how; the same key again gives the row kept.

    ValidationError by field; for rider safety the refusal must be signed, and NotBuiltSo where the owner
    builds no engine without it. A part that can lock the wheel or oil the tyre bears on it, said or not.
    """
    if kept := DeclinedAdvice.objects.filter(key=key).first():
        return kept
    if not words.strip():
        raise ValidationError({"words": say("Nothing is given: say what was advised.")})
    refuse_unsaid(said_by.strip(), how, name="said_by")
    rider_safety = rider_safety or _bears_on_the_rider(job, component)
    if rider_safety:
        refuse_unsafe(how)
    return save_checked(
        DeclinedAdvice(
            key=key,
            job=job,
            component=component,
            words=words.strip(),
            risk=risk.strip(),
            rider_safety=rider_safety,
            said_by=said_by.strip(),
            how=how.strip(),
            at=now,
            written_by=name_of(by),
        )
    )


def _bears_on_the_rider(job: Job, component: str) -> bool:
    catalogue = known_catalogue(job.engine.type_code) if component else None
    known = catalogue.components.get(component) if catalogue else None
    return known is not None and known.locks_wheel_or_oils_tyre
