"""Writing down what became of a build's service, and the owner's word on the factor."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.actions.saving import save_checked
from quotes.calc.bench.ages.promised import promised_over
from quotes.calc.bench.said import exact
from quotes.calc.said_days import said_day
from quotes.models import Acceptance, Job, ServiceEnd, ServiceOutcome, ShopFactorChange, Workshop
from quotes.queries.bench.ages.outcomes import outcome_of, promised_service
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of

LONGEST = Decimal(100_000)


class ToldAlready(Refused):
    """A build counts once."""

    def __init__(self, standing: ServiceOutcome) -> None:
        super().__init__(
            say(
                "It is written down already, on {on}: {end}. Take that back first.",
                on=said_day(standing.on),
                end=standing.get_end_display(),
            )
        )


class ChangedSince(Refused):
    """Somebody has set another factor meanwhile."""

    def __init__(self, stands: Decimal) -> None:
        super().__init__(
            say("The factor is {stands} by now: look at the page again.", stands=exact(stands.normalize()))
        )


@dataclass(frozen=True, slots=True)
class ServiceTold:
    """How a service went. `ran` is in the unit of the planned service; None where nobody knows."""

    end: str
    on: date
    ran: Decimal | None = None
    stopped_by: str = ""
    told_by: str = ""
    note: str = ""


@transaction.atomic
def tell_outcome(
    *, build: Acceptance, told: ServiceTold, key: UUID, by: User, now: datetime, job: Job | None = None
) -> ServiceOutcome:
    """Keep it with the promise that was accepted; the same key again gives the one that was kept.

    ToldAlready where the build has one that stands; ValidationError by field.
    """
    if kept := ServiceOutcome.objects.filter(key=key).first():
        return kept
    Acceptance.objects.select_for_update(of=("self",)).get(pk=build.pk)
    if standing := outcome_of(build):
        raise ToldAlready(standing)
    _refuse(build, told, timezone.localdate(now))
    ran = None if told.end == ServiceEnd.UNKNOWN else told.ran
    return save_checked(
        ServiceOutcome(
            key=key,
            build=build,
            job=job,
            type_code=build.quote.engine.type_code,
            tier=build.tier,
            ran=ran,
            **_promise_of(build, ran),
            end=told.end,
            stopped_by=told.stopped_by if told.end == ServiceEnd.STOPPED else "",
            on=told.on,
            told_by=told.told_by.strip(),
            note=told.note.strip(),
            at=now,
            by=by,
        )
    )


def _promise_of(build: Acceptance, ran: Decimal | None) -> dict[str, Any]:
    """What was promised for the whole service, and the hazard of so much of it as was run."""
    service = promised_service(build)
    chance = service.option.chance
    over = promised_over(service.option, float((ran or 0) / service.planned))
    return {
        "duty": service.duty,
        "planned": service.planned,
        "unit": service.unit,
        "chance": chance.value,
        "chance_low": chance.low,
        "chance_high": chance.high,
        "shop_factor": _factor_of(build),
        "wear_hazard": over.wear,
        "hands_hazard": over.hands,
    }


def _factor_of(build: Acceptance) -> float:
    return float(build.revision.sheet["comparison"]["shop_factor"])


def _refuse(build: Acceptance, told: ServiceTold, today: date) -> None:
    faults: dict[str, str] = {}
    if told.end not in ServiceEnd.values:
        faults["end"] = say("Nothing is picked: choose one of the list.")
    if told.ran is None and told.end != ServiceEnd.UNKNOWN:
        faults["ran"] = say("Nothing is given: how far it ran is needed, also where it stopped.")
    if told.ran is not None and not 0 <= told.ran <= LONGEST:
        faults["ran"] = say("{ran} is not between 0 and {most}.", ran=exact(told.ran), most=exact(LONGEST))
    if told.on > today:
        faults["on"] = say("{on} has not come yet: today, {today}, or earlier.", on=told.on, today=today)
    elif told.on < timezone.localdate(build.accepted_at):
        faults["on"] = say("{on} is before the build was said yes to.", on=told.on)
    if told.end == ServiceEnd.STOPPED and told.stopped_by not in _causes(build):
        faults["stopped_by"] = say("“{given}” is no part of this engine.", given=told.stopped_by)
    if faults:
        raise ValidationError(faults)


def _causes(build: Acceptance) -> set[str]:
    catalogue = known_catalogue(build.quote.engine.type_code)
    return {"", ServiceOutcome.OWN_HANDS, *(catalogue.components if catalogue else ())}


@transaction.atomic
def take_back_outcome(*, outcome: ServiceOutcome, because: str, by: User, now: datetime) -> ServiceOutcome:
    """Take it back with the reason: it stays on record and counts no more. Again changes nothing."""
    row = ServiceOutcome.objects.select_for_update(of=("self",)).get(pk=outcome.pk)
    if row.withdrawn_at is not None:
        return row
    if not because.strip():
        raise ValidationError({"because": say("Nothing is given: say why it is taken back.")})
    row.withdrawn_at, row.withdrawn_by, row.withdrawn_because = now, name_of(by), because.strip()
    row.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_because"])
    return row


@transaction.atomic
def set_shop_factor(
    *,
    factor: Decimal,
    reason: str,
    expected: Decimal,
    by: User,
    now: datetime,
    record: Mapping[str, Any] | None = None,
) -> ShopFactorChange:
    """Set the factor for every quote from now on, signed and dated; issued ones stay as they are.

    ChangedSince where it is not `expected` any more; ValidationError by field.
    """
    row = _workshop()
    if row.shop_factor != expected:
        raise ChangedSince(row.shop_factor)
    if not reason.strip():
        raise ValidationError({"reason": say("Nothing is given: say why it is changed.")})
    if factor == row.shop_factor:
        raise ValidationError({"factor": say("It is {factor} already.", factor=exact(factor.normalize()))})
    return _change(row, factor, reason.strip(), by, now, record=dict(record or {}))


@transaction.atomic
def take_back_factor(*, change: ShopFactorChange, reason: str, by: User, now: datetime) -> ShopFactorChange:
    """Put the factor back to what it was before the latest change. Refused for an earlier one."""
    row = _workshop()
    latest = ShopFactorChange.objects.first()
    if latest is None or latest.pk != change.pk:
        raise Refused(
            say("Another change has been made since: take that one back first, or set the factor anew.")
        )
    if change.takes_back_id is not None:
        raise Refused(say("That was itself a taking back: set the factor anew."))
    if not reason.strip():
        raise ValidationError({"reason": say("Nothing is given: say why it is taken back.")})
    return _change(row, change.before, reason.strip(), by, now, takes_back=change)


def _workshop() -> Workshop:
    Workshop.objects.get_or_create(pk=Workshop.ONLY_ID)
    return Workshop.objects.select_for_update().get(pk=Workshop.ONLY_ID)


def _change(
    row: Workshop, factor: Decimal, reason: str, by: User, now: datetime, **more: Any
) -> ShopFactorChange:
    made = save_checked(
        ShopFactorChange(before=row.shop_factor, after=factor, reason=reason, by=by, at=now, **more)
    )
    row.shop_factor = factor
    row.save(update_fields=["shop_factor"])
    return made
