"""Reads on sign-ins: how long a pause lasts."""

from __future__ import annotations

from datetime import datetime, timedelta

from axes.models import AccessAttempt
from django.db.models import Max


def paused_until(*, name: str | None, address: str | None, pause: timedelta, now: datetime) -> datetime:
    """When a name may be tried again from an address: a pause after the last try that counted."""
    tried = AccessAttempt.objects.filter(username=name, ip_address=address)
    last: datetime | None = tried.aggregate(last=Max("attempt_time"))["last"]
    return (last or now) + pause
