"""Keeping a life that the owner approved on the workshop's own record, and taking it back."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.actions.entries import count_up
from catalogue.calc.said import say, say_figure
from catalogue.models import CatalogueVersion, LifeChange

NUL = "\x00"
LONGEST_REASON = 500


@dataclass(frozen=True, slots=True)
class LifeFigures:
    """A life with its range, shape and strength of evidence."""

    low: float
    typical: float
    high: float
    shape: float
    evidence: float


@dataclass(frozen=True, slots=True)
class LifeApproved:
    """What is approved: the life as it was and as it becomes, and what it rests on."""

    component: str
    basis: str
    engine_type: str
    rule: str
    was: LifeFigures
    becomes: LifeFigures
    rests_on: LifeChange | None
    data: dict[str, Any]
    counted: list[str]
    teardowns: list[str]


def hold_lives() -> None:
    """Nobody else changes a life until the transaction is over."""
    CatalogueVersion.objects.select_for_update().get_or_create(id=1)


@transaction.atomic
def keep_change(*, change: LifeApproved, reason: str, key: UUID, by: User, now: datetime) -> LifeChange:
    """Keep an approved change; from now on the sums read it. ValidationError without a reason."""
    hold_lives()
    if kept := LifeChange.objects.filter(key=key).first():
        return kept
    row = LifeChange(
        key=key,
        component=change.component,
        basis=change.basis,
        engine_type=change.engine_type,
        rests_on=change.rests_on,
        rule=change.rule,
        **asdict(change.becomes),
        was=asdict(change.was),
        data=change.data,
        counted=change.counted,
        teardowns=change.teardowns,
        reason=_said(reason, say("Nothing is given: say why it is approved.")),
        by=by,
        at=now,
    )
    row.save()
    count_up()
    return row


@transaction.atomic
def take_back_change(*, change: LifeChange, reason: str, key: UUID, by: User, now: datetime) -> LifeChange:
    """What stood before stands again. ValidationError without a reason, or where a later one rests on it."""
    hold_lives()
    if kept := LifeChange.objects.filter(key=key).first():
        return kept
    if back := LifeChange.objects.filter(takes_back=change).first():
        return back
    if later := change.carries.filter(takes_back=None, taken_back=None).first():
        day = f"{later.at:%Y-%m-%d}"
        rests = say("The change of {day} rests on this one: take that one back first.", day=day)
        raise ValidationError({"reason": rests})
    was = LifeFigures(**change.was)
    row = LifeChange(
        key=key,
        component=change.component,
        basis=change.basis,
        engine_type=change.engine_type,
        takes_back=change,
        rule=change.rule,
        **asdict(was),
        was=asdict(LifeFigures(change.low, change.typical, change.high, change.shape, change.evidence)),
        data={},
        reason=_said(reason, say("Nothing is given: say why it is taken back.")),
        by=by,
        at=now,
    )
    row.save()
    count_up()
    return row


def _said(reason: str, needed: str) -> str:
    text = reason.strip()
    if not text:
        raise ValidationError({"reason": needed})
    if NUL in text:
        raise ValidationError({"reason": say("This text holds a character that can't be stored (NUL).")})
    if len(text) > LONGEST_REASON:
        raise ValidationError(
            {
                "reason": say(
                    "This has {count} characters; at most {most} are kept.",
                    count=say_figure(len(text), 0),
                    most=LONGEST_REASON,
                )
            }
        )
    return text
