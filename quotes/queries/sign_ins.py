"""Reads on sign-ins: how long a pause lasts, where a person is signed in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from axes.models import AccessAttempt
from django.contrib.auth.models import User
from django.db.models import Max

from quotes.calc.browser_words import browser_in_words
from quotes.models import SignIn


def paused_until(*, name: str | None, address: str | None, pause: timedelta, now: datetime) -> datetime:
    """When a name may be tried again from an address: a pause after the last try that counted."""
    tried = AccessAttempt.objects.filter(username=name, ip_address=address)
    last: datetime | None = tried.aggregate(last=Max("attempt_time"))["last"]
    return (last or now) + pause


@dataclass(frozen=True, slots=True)
class SignedIn:
    """One browser that a person is signed in with."""

    pk: int
    browser: str
    address: str | None
    since: datetime
    last_used: datetime
    present: bool


def sign_ins_of(
    user: User, *, session_key: str | None, now: datetime, used_after: datetime
) -> tuple[SignedIn, ...]:
    """Where a person is signed in, the present browser first, then by last use."""
    rows = SignIn.objects.filter(user=user).standing(now=now, used_after=used_after)
    found = [
        SignedIn(
            pk=row.pk,
            browser=browser_in_words(row.browser),
            address=row.address,
            since=row.since,
            last_used=row.last_used,
            present=row.session_id == session_key,
        )
        for row in rows
    ]
    return tuple(sorted(found, key=lambda one: not one.present))
