"""A build is called off after the yes: it leaves the bench, and what was done so far is still invoiced."""

from __future__ import annotations

from datetime import date, datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.books.refused import CalledOffAlready, NotToBeCalledOff
from quotes.actions.saving import save_checked
from quotes.calc.said_days import said_day
from quotes.models import Acceptance, CalledOff, ExtraWork, ExtraWorkState
from quotes.queries.books.build import finally_invoiced


@transaction.atomic
def call_off(*, build: Acceptance, reason: str, said_by: str, on: date, by: User, now: datetime) -> CalledOff:
    """Keep that a build was called off, by whom on which day; the same once more gives what stands.

    Extra work that waits for an answer is taken back. CalledOffAlready, NotToBeCalledOff once it is done or
    invoiced to the end, ValidationError by field.
    """
    row = Acceptance.objects.select_for_update(of=("self",)).select_related("quote").get(pk=build.pk)
    said = {"reason": reason.strip(), "said_by": said_by.strip(), "on": on}
    if standing := CalledOff.objects.filter(build=row).first():
        if all(getattr(standing, name) == value for name, value in said.items()):
            return standing
        raise CalledOffAlready(row.quote.title, standing.said_by, standing.on)
    _refuse_over(row, now)
    _refuse_unsaid(row, reason, said_by, on, now)
    for waiting in ExtraWork.objects.waiting().filter(build=row).select_for_update(of=("self",)):
        waiting.state = ExtraWorkState.WITHDRAWN
        waiting.save(update_fields=["state"])
    return save_checked(CalledOff(build=row, at=now, by=by, **said))


def _refuse_over(row: Acceptance, now: datetime) -> None:
    number = row.quote.title
    if finally_invoiced(row, timezone.localdate(now)):
        raise NotToBeCalledOff(
            say(
                "{number} is invoiced to the end. What is not owed is taken back by a credit note.",
                number=number,
            )
        )
    if row.done_at is not None:
        done = timezone.localdate(row.done_at)
        raise NotToBeCalledOff(
            say("{number} is done since {day}: invoice it instead.", number=number, day=said_day(done))
        )


def _refuse_unsaid(row: Acceptance, reason: str, said_by: str, on: date, now: datetime) -> None:
    faults = {}
    first, today = timezone.localdate(row.accepted_at), timezone.localdate(now)
    if not reason.strip():
        faults["reason"] = say("Nothing is given: write why it is called off, in a few words.")
    if not said_by.strip():
        faults["said_by"] = say("Nothing is given: write the full name of who called it off.")
    if not first <= on <= today:
        faults["on"] = say(
            "{on}: from the day of the yes, {first}, up to today, {today}.", on=on, first=first, today=today
        )
    if faults:
        raise ValidationError(faults)


def refuse_called_off(build: Acceptance) -> None:
    """CalledOffAlready where nothing more is to be done for the build; called with its row locked."""
    if standing := CalledOff.objects.filter(build=build).select_related("build__quote").first():
        raise CalledOffAlready(standing.build.quote.title, standing.said_by, standing.on)
