"""Old parts that the supplier takes back, and parts that the customer brings."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Literal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.parts_refused import CoreNotThere
from quotes.actions.books.money_given import currency_now, in_coins
from quotes.actions.saving import save_checked
from quotes.models import Acceptance, Core, CoreState, OwnPart
from quotes.queries.people import name_of

CORE_DAYS = 30
"""How long a supplier usually takes a core back; from memory, each says his own."""


@transaction.atomic
def open_core(
    *,
    build: Acceptance,
    description: str,
    supplier: str,
    deposit: Decimal,
    on: date,
    by: User,
    due_back_on: date | None = None,
    component: str = "",
) -> Core:
    """Write down a core that is to go back. The same once more while it is with us gives the row there is.

    ValidationError by field.
    """
    in_coins(deposit, currency_now(), "deposit", above_nought=False)
    due = due_back_on or on + timedelta(days=CORE_DAYS)
    if due < on:
        raise ValidationError(
            {"due_back_on": say("{due} is before {on}, when it was opened.", due=due, on=on)}
        )
    list(Acceptance.objects.select_for_update(of=("self",)).filter(pk=build.pk).values_list("pk"))
    same = Core.objects.filter(
        build=build, description=description.strip(), supplier=supplier, state=CoreState.HERE, opened_on=on
    )
    return same.first() or save_checked(
        Core(
            build=build,
            component=component,
            description=description.strip(),
            supplier=supplier,
            deposit=deposit,
            opened_on=on,
            due_back_on=due,
            changed_by=name_of(by),
        )
    )


@transaction.atomic
def send_core(*, core: Core, on: date, by: User, now: datetime) -> Core:
    """It went back to the supplier on that day. CoreNotThere where it is not with us."""
    row = _locked(core, CoreState.HERE)
    _refuse_day(on, row.opened_on, timezone.localdate(now))
    row.state, row.sent_on, row.changed_by = CoreState.SENT, on, name_of(by)
    return save_checked(row)


@transaction.atomic
def settle_core(
    *, core: Core, outcome: Literal["refunded", "refused"], on: date, by: User, now: datetime, note: str = ""
) -> Core:
    """The supplier gave the deposit back, or refused the core and said why."""
    row = _locked(core, CoreState.SENT)
    _refuse_day(on, row.sent_on or row.opened_on, timezone.localdate(now))
    if outcome == "refused" and not note.strip():
        raise ValidationError({"note": say("Nothing is given: say why it was refused.")})
    row.state, row.settled_on, row.note, row.changed_by = outcome, on, note.strip(), name_of(by)
    return save_checked(row)


def _locked(core: Core, wanted: str) -> Core:
    row = Core.objects.select_for_update(of=("self",)).get(pk=core.pk)
    if row.state != wanted:
        raise CoreNotThere(row.description, row.get_state_display())
    return row


def _refuse_day(on: date, first: date, today: date) -> None:
    if not first <= on <= today:
        raise ValidationError(
            {"on": say("{on} is not between {first} and {today}.", on=on, first=first, today=today)}
        )


@dataclass(frozen=True, slots=True)
class CoreBrought:
    """A part that the customer brought, as it was looked at."""

    component: str
    description: str
    quantity: Decimal
    received_on: date
    condition: str
    fit_to_use: bool


@transaction.atomic
def bring_own_part(*, build: Acceptance, brought: CoreBrought, key: UUID, by: User, now: datetime) -> OwnPart:
    """Take in a part that the customer brought: it is not charged, and bears no warranty of ours.

    One that is not fit to use needs words on what is wrong; the part is then picked as if it was not here.
    """
    if made := OwnPart.objects.filter(key=key).first():
        return made
    if not brought.fit_to_use and not brought.condition.strip():
        raise ValidationError({"condition": say("Nothing is given: say why it is not fit to use.")})
    if brought.received_on > timezone.localdate(now):
        raise ValidationError({"received_on": say("{on} has not come yet.", on=brought.received_on)})
    return save_checked(
        OwnPart(
            key=key,
            build=build,
            component=brought.component,
            description=brought.description.strip(),
            quantity=brought.quantity,
            received_on=brought.received_on,
            condition=brought.condition.strip(),
            fit_to_use=brought.fit_to_use,
            at=now,
            by=by,
        )
    )
