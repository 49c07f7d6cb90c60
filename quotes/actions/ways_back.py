"""Writes on the way back in for who has forgotten the password."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction

from quotes.actions.sign_ins import change_password, lift_pause
from quotes.models import PasswordAsk

COUNTED_FOR = timedelta(hours=1)
FROM_ONE_ADDRESS = 5
TO_ONE_MAIL = 3


class AskedTooOften(Exception):
    """From this address a way back was asked for as often as an hour allows; says when the next may be."""

    def __init__(self, until: datetime) -> None:
        super().__init__("asked too often")
        self.until = until


@transaction.atomic
def note_ask(*, mail: str, address: str | None, now: datetime) -> bool:
    """Note that somebody asked, and say whether a mail may go: nobody's letter box is filled.

    AskedTooOften where it is the visitor who asks too often.
    """
    PasswordAsk.objects.filter(asked_at__lte=now - COUNTED_FOR).delete()
    from_here = list(PasswordAsk.objects.filter(address=address).order_by("asked_at"))
    if len(from_here) >= FROM_ONE_ADDRESS:
        raise AskedTooOften(from_here[-FROM_ONE_ADDRESS].asked_at + COUNTED_FOR)
    mail_hash = hashlib.sha256(mail.casefold().encode()).hexdigest()
    sent = PasswordAsk.objects.filter(mail_hash=mail_hash).count()
    PasswordAsk.objects.create(address=address, mail_hash=mail_hash, asked_at=now)
    return sent < TO_ONE_MAIL


@transaction.atomic
def come_back(*, user: User, password: str) -> None:
    """A new password for who came by mail: nothing stays signed in, and no pause stays on the name."""
    change_password(user=user, password=password, session_key=None)
    lift_pause(name=user.get_username())


def keep_mail(*, user: User, mail: str) -> None:
    """Where a way back is sent to; empty for nowhere."""
    user.email = mail
    user.full_clean(exclude=["password"])
    user.save(update_fields=["email"])
