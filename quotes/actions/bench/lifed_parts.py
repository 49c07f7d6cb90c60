"""Entering parts that carry their own age from engine to engine."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.saving import save_checked
from quotes.models import Customer, LifedPart
from quotes.queries.bench.ages.lifed_parts import lifed_components


@dataclass(frozen=True, slots=True)
class Before:
    """What a part had run before it came into our books. `amount` 0: new; None: nobody knows."""

    amount: Decimal | None
    unit: str = ""
    duty: str = ""


@transaction.atomic
def register(
    *,
    component: str,
    type_code: str,
    serial: str,
    before: Before,
    grade: str = "",
    owner: Customer | None = None,
    note: str = "",
) -> LifedPart:
    """Enter a part by its serial number; ValidationError by field, also where it is entered already."""
    serial = serial.strip()
    _refuse_unfit(component, type_code, serial)
    _refuse_before(before)
    ran = bool(before.amount)
    return save_checked(
        LifedPart(
            component=component,
            type_code=type_code,
            serial=serial,
            grade=grade,
            owner=owner,
            ran_before=before.amount,
            ran_before_unit=before.unit if ran else "",
            ran_before_duty=before.duty if ran else "",
            note=note.strip(),
        )
    )


def _refuse_unfit(component: str, type_code: str, serial: str) -> None:
    known = lifed_components(type_code)
    if component not in known:
        wrong = say("{given} is none of: {allowed}.", given=repr(component), allowed=", ".join(known))
        raise ValidationError({"component": wrong})
    if LifedPart.objects.filter(component=component, type_code=type_code, serial=serial).exists():
        wrong = say(
            "{serial} is entered already as {known} of this type.",
            serial=repr(serial),
            known=known[component],
        )
        raise ValidationError({"serial": wrong})


def _refuse_before(before: Before) -> None:
    if before.amount and not before.unit:
        raise ValidationError(
            {"ran_before_unit": say("Nothing is picked: miles, kilometres, hours or runs.")}
        )
    if before.amount and not before.duty:
        raise ValidationError({"ran_before_duty": say("Nothing is picked: in which use did it run that?")})
