"""What may be done only so often: counted once for each time, also where several come at once."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction

from quotes.models import Allowance

KEPT_FOR = timedelta(days=1)
"""A row that was not counted on for so long is cleared away. No allowance may look further back."""


@dataclass(frozen=True, slots=True)
class OnlySoOften:
    """So many times within that time, for each who."""

    what: str
    times: int
    within: timedelta = timedelta(hours=1)


@transaction.atomic
def count(rule: OnlySoOften, *, who: str | None, now: datetime) -> datetime | None:
    """Count one time. None where it is allowed; else from when on it is, and it is not counted."""
    who_hash = _hash(who)
    Allowance.objects.get_or_create(what=rule.what, who_hash=who_hash, defaults={"last_at": now})
    row = Allowance.objects.select_for_update().get(what=rule.what, who_hash=who_hash)
    until, of_late = _until(rule, row, now)
    if until is None:
        row.times, row.last_at = [*of_late, now.isoformat()], now
        row.save(update_fields=["times", "last_at"])
        _clear_away(now)
    return until


def used_up(rule: OnlySoOften, *, who: str | None, now: datetime) -> datetime | None:
    """Until when it was done too often already; None where it may be done, and nothing is counted."""
    row = Allowance.objects.filter(what=rule.what, who_hash=_hash(who)).first()
    return _until(rule, row, now)[0] if row else None


def _until(rule: OnlySoOften, row: Allowance, now: datetime) -> tuple[datetime | None, list[str]]:
    of_late = [time for time in row.times if datetime.fromisoformat(time) > now - rule.within]
    full = len(of_late) >= rule.times
    return (datetime.fromisoformat(of_late[-rule.times]) + rule.within if full else None), of_late


def _clear_away(now: datetime) -> None:
    """Some of the rows that are counted on no more; those that another is at are left to it."""
    old = Allowance.objects.filter(last_at__lt=now - KEPT_FOR).select_for_update(skip_locked=True)
    keys = list(old.values_list("pk", flat=True)[:100])
    if keys:
        Allowance.objects.filter(pk__in=keys).delete()


def _hash(who: str | None) -> str:
    return hashlib.sha256((who or "").casefold().encode()).hexdigest()
