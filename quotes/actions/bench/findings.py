"""Keeping what was seen: of the catalogue or in the builder's words, and taking it back with a reason."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.engine import EngineCatalogue, Finding
from catalogue.calc.said import say
from quotes.actions.bench.refused import NotInTheShop
from quotes.actions.saving import save_checked
from quotes.models import FindingSeen, Job, Judged
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.people import name_of


@dataclass(frozen=True, slots=True)
class FindingTold:
    """What was seen, where, why, what follows, and how it is judged.

    `code` is the finding of the catalogue, or empty. `until_amount` is service still to run, for a part that
    serves until then.
    """

    judged: str
    code: str = ""
    component: str = ""
    place: str = ""
    words: str = ""
    cause: str = ""
    consequence: str = ""
    until_amount: Decimal | None = None
    until_unit: str = ""
    pct_over: Decimal | None = None


@transaction.atomic
def keep_finding(*, job: Job, seen: FindingTold, key: UUID, by: User, now: datetime) -> FindingSeen:
    """Keep a finding; the same key again gives the one that was kept. `now` is when it was seen.

    ValidationError by field; NotInTheShop for an engine that has left. Cause and consequence are those of
    the catalogue where the builder says no other.
    """
    held = Job.objects.select_for_update(of=("self",)).select_related("engine").get(pk=job.pk)
    if kept := FindingSeen.objects.filter(key=key).first():
        return kept
    if held.left_at is not None:
        raise NotInTheShop(held.number)
    catalogue = catalogue_of(held)
    known = catalogue.findings.get(seen.code)
    _refuse(seen, known, catalogue)
    return save_checked(
        FindingSeen(
            key=key,
            job=held,
            finding_code=seen.code,
            component=seen.component or _its_own(known),
            place=seen.place.strip(),
            words=seen.words.strip(),
            cause=seen.cause.strip() or (known.cause if known else "")[:500],
            consequence=seen.consequence.strip() or (known.tell_customer if known else "")[:500],
            judged=seen.judged,
            until_amount=seen.until_amount,
            until_unit=seen.until_unit if seen.until_amount is not None else "",
            pct_over=seen.pct_over,
            seen_at=now,
            by=by,
        )
    )


def _refuse(seen: FindingTold, known: Finding | None, catalogue: EngineCatalogue) -> None:
    faults = {}
    if seen.code and (known is None or not known.counts_as(event=False)):
        faults["code"] = say("{code} is no finding of this engine.", code=repr(seen.code))
    if not seen.code and not seen.words.strip():
        faults["words"] = say("Nothing is given: pick a finding, or say in words what is seen.")
    if not seen.code and not seen.component:
        faults["component"] = say("Nothing is given: say which part it is.")
    if seen.component and seen.component not in catalogue.components:
        faults["component"] = say(
            "{component} is no component of this engine.", component=repr(seen.component)
        )
    if known is not None and known.any_of and seen.component not in _may_name(known):
        names = ", ".join(
            catalogue.components[one].name for one in known.any_of if one in catalogue.components
        )
        faults["component"] = say("This finding leaves open which part it is: one of {names}.", names=names)
    if seen.judged not in Judged.values:
        faults["judged"] = say("Say how it is judged: {allowed}.", allowed=", ".join(map(str, Judged.labels)))
    until = seen.judged == Judged.UNTIL
    if until and (seen.until_amount is None or seen.until_amount <= 0 or not seen.until_unit):
        faults["until_amount"] = say("Say for how long it serves: an amount above 0, and its unit.")
    if faults:
        raise ValidationError(faults)


def _its_own(known: Finding | None) -> str:
    """The component that it is always about; none where it leaves open which."""
    return "" if known is None or known.any_of else known.component or ""


def _may_name(known: Finding) -> tuple[str, ...]:
    """What it may name; nothing need be named where it is only where something may come from."""
    return known.any_of if known.component in known.renew else ("", *known.any_of)


@transaction.atomic
def withdraw_finding(*, finding: FindingSeen, because: str, by: User, now: datetime) -> FindingSeen:
    """Take a finding back with the reason: it stays on record, struck out. A second time changes nothing."""
    row = FindingSeen.objects.select_for_update(of=("self",)).get(pk=finding.pk)
    if row.withdrawn_at is not None:
        return row
    if not because.strip():
        raise ValidationError({"because": say("Nothing is given: say why it is taken back.")})
    row.withdrawn_at, row.withdrawn_by = now, name_of(by)
    row.withdrawn_because = because.strip()
    row.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_because"])
    return row
