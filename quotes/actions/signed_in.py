"""Writes on where people are signed in: a session begun, used, ended."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.contrib.sessions.models import Session
from django.db import transaction
from django.db.models import Q

from quotes.actions.sent_forms import forget_forms
from quotes.models import SignIn


@transaction.atomic
def begin_sign_in(
    *, user: User, session_key: str, browser: str, address: str | None, now: datetime, used_after: datetime
) -> None:
    """Note a sign-in, and clear away what has run out, whosever it was: sessions, and forms long sent."""
    Session.objects.filter(Q(expire_date__lte=now) | Q(sign_in__last_used__lte=used_after)).delete()
    forget_forms(now=now)
    SignIn.objects.update_or_create(
        session_id=session_key,
        defaults={
            "user": user,
            "browser": browser.replace("\x00", "")[:255],
            "address": address,
            "since": now,
            "last_used": now,
        },
    )


def note_use(*, session_key: str, now: datetime) -> None:
    """A page was asked for; written once in some minutes only."""
    SignIn.objects.filter(session_id=session_key).update(last_used=now)


@transaction.atomic
def end_sign_in(*, user: User, pk: int) -> str | None:
    """End one of a person's own sessions; its browser, or none where it is not theirs."""
    row = SignIn.objects.filter(user=user, pk=pk).first()
    if row is None:
        return None
    Session.objects.filter(pk=row.session_id).delete()
    return row.browser


@transaction.atomic
def end_other_sign_ins(*, user: User, session_key: str | None) -> int:
    """End all of a person's sessions but the present one; how many those were."""
    others = SignIn.objects.filter(user=user).exclude(session_id=session_key)
    keys = list(others.values_list("session_id", flat=True))
    Session.objects.filter(pk__in=keys).delete()
    return len(keys)
