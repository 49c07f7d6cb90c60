"""Closing a month so that nothing more is dated into it, and opening it again in writing."""

from __future__ import annotations

from datetime import date, datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.books.journal import first_of_next, pass_the_gate
from quotes.actions.books.numbers import hold_the_series
from quotes.actions.books.refused_months import MonthNotOver
from quotes.actions.saving import save_checked
from quotes.models import MonthLock
from quotes.queries.people import name_of


@transaction.atomic
def lock_month(*, month: date, by: User, now: datetime) -> MonthLock:
    """Close the month of that day; a closed one stays as it was closed. MonthNotOver before its last day is.

    Waits for everybody who has taken a number of a document and has not finished with it.
    """
    first = month.replace(day=1)
    if timezone.localdate(now) < first_of_next(first):
        raise MonthNotOver(first)
    hold_the_series(first)
    pass_the_gate()
    standing = MonthLock.objects.standing().filter(month=first).first()
    return standing or save_checked(MonthLock(month=first, locked_at=now, locked_by=name_of(by)))


@transaction.atomic
def open_month(*, month: date, because: str, by: User, now: datetime) -> MonthLock | None:
    """Open a closed month again, with the reason; the view lets only the owner. None where it is open."""
    standing = MonthLock.objects.standing().select_for_update().filter(month=month.replace(day=1)).first()
    if standing is None:
        return None
    if not because.strip():
        raise ValidationError({"because": say("Write why: an auditor will ask.")})
    standing.opened_at, standing.opened_by = now, name_of(by)
    standing.opened_because = because.strip()
    return save_checked(standing)
