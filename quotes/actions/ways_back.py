"""Writes on the way back in for who has forgotten the password."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from quotes.actions.allowances import OnlySoOften, count
from quotes.actions.sign_ins import change_password, lift_pause

FROM_ONE_ADDRESS = OnlySoOften("asking for a way back", 5)
TO_ONE_MAIL = OnlySoOften("mails of a way back", 3)


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
    if until := count(FROM_ONE_ADDRESS, who=address, now=now):
        raise AskedTooOften(until)
    return count(TO_ONE_MAIL, who=mail, now=now) is None


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
