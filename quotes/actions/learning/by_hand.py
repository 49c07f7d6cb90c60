"""Strip-downs of earlier years, entered by hand or from a file. What was wrong is withdrawn, never edited."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_figure
from quotes.actions.audit.bulk import add_all
from quotes.actions.saving import checked, save_checked
from quotes.calc.ask.request import MAX_AMOUNT
from quotes.calc.learning.reference import NoReference, wear_per_unit
from quotes.models import Evidence
from quotes.queries.learning.rows import Catalogues
from quotes.queries.people import name_of

EARLIEST = date(1990, 1, 1)


@dataclass(frozen=True, slots=True)
class EarlierSet:
    """One set of a component as somebody wrote it down: how far it had run, in what, and how it was.

    `amount` is service since it was new; `entry` how much of that was run before anybody watched it.
    """

    type_code: str
    component: str
    engine: str
    on: date
    outcome: str
    amount: Decimal
    unit: str
    duty: str
    tier: str
    entry: Decimal = ZERO
    seen_good_at: Decimal | None = None
    source: str = ""


@transaction.atomic
def enter_evidence(*, told: EarlierSet, key: UUID, by: User, now: datetime) -> Evidence:
    """Keep one row; the same key again gives the one that was kept. ValidationError by field."""
    if kept := Evidence.objects.filter(key=key).first():
        return kept
    return save_checked(_row(told, by, now, key=key))


@transaction.atomic
def enter_all(*, told: Sequence[EarlierSet], by: User, now: datetime) -> int:
    """Keep rows that were checked one by one: all or, with the first ValidationError, none."""
    known = Catalogues()
    rows = [_row(one, by, now, known) for one in told]
    for row in rows:
        row.clean_fields(exclude=["by"])
    add_all(Evidence, rows, batch_size=200)
    return len(rows)


def _row(
    told: EarlierSet, by: User, now: datetime, known: Catalogues | None = None, key: UUID | None = None
) -> Evidence:
    if faults := faults_of(told, timezone.localdate(now), known):
        raise ValidationError(faults)
    past = told.outcome == "past_limit"
    return Evidence(
        key=key,
        type_code=told.type_code,
        component=told.component,
        duty=told.duty,
        tier=told.tier,
        outcome=told.outcome,
        unit=told.unit,
        entry=told.entry,
        exit=told.amount,
        seen_good_at=(told.entry if told.seen_good_at is None else told.seen_good_at) if past else None,
        on=told.on,
        engine_name=told.engine.strip(),
        source=told.source.strip(),
        by=by,
        at=now,
    )


def faults_of(told: EarlierSet, today: date, known: Catalogues | None = None) -> dict[str, str]:
    """What is wrong with a row, by field, with the value and what is allowed."""
    faults = {}
    if not told.engine.strip():
        faults["engine"] = say("Nothing is given: say which engine it was, by number or in words.")
    if not EARLIEST <= told.on <= today:
        faults["on"] = say(
            "{day} is not a day from {earliest} to today, {today}.",
            day=told.on,
            earliest=EARLIEST,
            today=today,
        )
    return faults | _service(told) | _unknown(told, known or Catalogues())


def _service(told: EarlierSet) -> dict[str, str]:
    """What it ran, when it came under observation and when it was last within its limit."""
    if not ZERO < told.amount <= MAX_AMOUNT:
        return {
            "amount": say(
                "{amount} is not above 0 and at most {most}.",
                amount=f"{told.amount:f}",
                most=say_figure(MAX_AMOUNT, 0),
            )
        }
    if not ZERO <= told.entry < told.amount:
        return {
            "entry": say(
                "{entry} is not from 0 to below {amount}, what it had run.",
                entry=f"{told.entry:f}",
                amount=f"{told.amount:f}",
            )
        }
    if told.seen_good_at is not None and told.outcome != "past_limit":
        return {"seen_good_at": say("Only for a set found past its limit: leave it out.")}
    if told.seen_good_at is not None and not told.entry <= told.seen_good_at < told.amount:
        return {
            "seen_good_at": say(
                "{seen} is not from {entry} to below {amount}, what it had run.",
                seen=f"{told.seen_good_at:f}",
                entry=f"{told.entry:f}",
                amount=f"{told.amount:f}",
            )
        }
    return {}


def _unknown(told: EarlierSet, known: Catalogues) -> dict[str, str]:
    """A component that the engine type lacks, and service that says nothing of its duty."""
    catalogue = known.of(told.type_code)
    if catalogue is None:
        return {"type_code": say("{type} is no engine type of the catalogue.", type=told.type_code)}
    part = catalogue.components.get(told.component)
    if part is None or not part.lives or part.service_item:
        name = catalogue.engine_type.name
        return {
            "component": say(
                "{component} has no life on the {engine}: pick one that has.",
                component=told.component,
                engine=name,
            )
        }
    try:
        wear_per_unit(part, told.unit, told.duty, told.tier, catalogue)  # type: ignore[arg-type]
    except NoReference as why:
        return {"unit": f"{why}."}
    return {}


@transaction.atomic
def withdraw_evidence(*, evidence: Evidence, because: str, by: User, now: datetime) -> Evidence:
    """Take a row back with the reason: it stays on record and counts no more. A second time does nothing."""
    row = Evidence.objects.select_for_update(of=("self",)).get(pk=evidence.pk)
    if row.withdrawn_at is not None:
        return row
    if not because.strip():
        raise ValidationError({"because": say("Nothing is given: say why it is withdrawn.")})
    row.withdrawn_at, row.withdrawn_by, row.withdrawn_because = now, name_of(by), because.strip()
    checked(row)
    row.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_because"])
    return row
