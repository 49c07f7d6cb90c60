"""Inviting a person: asked by the owner, taken by the person, who alone sets the password."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.allowances import OnlySoOften, count
from quotes.actions.audit.bulk import change_all
from quotes.actions.refused import Refused
from quotes.actions.saving import save_checked
from quotes.actions.sign_ins import add_person
from quotes.models import Invitation, token_hash
from quotes.queries.people import ROLES, Role

TOKEN_BYTES = 16
GOOD_FOR = timedelta(days=3)
TO_ONE_MAIL = OnlySoOften("invitations to a mail address", 3)
BY_ONE_OWNER = OnlySoOften("invitations by an owner", 20)


class SentTooOften(Refused):
    """So many mails went out already that this one waits."""

    def __init__(self, until: datetime) -> None:
        self.until = until
        super().__init__(say("So many invitations went out within the hour that this one has to wait."))


class NotOpen(Refused):
    """The invitation was taken or withdrawn meanwhile."""

    def __init__(self) -> None:
        super().__init__(say("This invitation was taken or withdrawn meanwhile, so nothing was sent."))


@dataclass(frozen=True, slots=True)
class Invited:
    """An invitation with its token, which is not stored: the mail is the only place where it stands."""

    invitation: Invitation
    token: str


@transaction.atomic
def invite(*, name: str, role: Role, mail: str, by: User, now: datetime) -> Invited:
    """Keep an invitation, to be mailed. ValidationError by field; SentTooOften."""
    if role not in ROLES:
        raise ValidationError(
            {"role": say("“{role}” is no role: {roles}.", role=role, roles=", ".join(ROLES))}
        )
    if there := User.objects.filter(email__iexact=mail, is_active=True).first():
        raise ValidationError(
            {
                "mail": say(
                    "{name} signs in already, with this mail address.",
                    name=there.get_username(),
                )
            }
        )
    token = secrets.token_urlsafe(TOKEN_BYTES)
    row = Invitation(
        name=name,
        role=role,
        mail=mail,
        token_hash=token_hash(token),
        invited_by=by,
        invited_at=now,
        sent_at=now,
        expires_at=now + GOOD_FOR,
    )
    save_checked(row)
    _count(row, by, now)
    return Invited(row, token)


@transaction.atomic
def send_again(*, invitation: Invitation, by: User, now: datetime) -> Invited:
    """Another link in the place of the one before, which opens no more. NotOpen; SentTooOften."""
    row = Invitation.objects.select_for_update().open().filter(pk=invitation.pk).first()
    if row is None:
        raise NotOpen
    _count(row, by, now)
    token = secrets.token_urlsafe(TOKEN_BYTES)
    row.token_hash, row.sent_at, row.expires_at = token_hash(token), now, now + GOOD_FOR
    row.save(update_fields=["token_hash", "sent_at", "expires_at"])
    return Invited(row, token)


def _count(row: Invitation, by: User, now: datetime) -> None:
    """What is refused here undoes the rest of the transaction."""
    for rule, who in ((BY_ONE_OWNER, str(by.pk)), (TO_ONE_MAIL, row.mail)):
        if until := count(rule, who=who, now=now):
            raise SentTooOften(until)


@transaction.atomic
def withdraw_invitation(*, invitation: Invitation, now: datetime) -> bool:
    """Close an invitation that was not taken yet; whether it was still open."""
    return bool(change_all(Invitation.objects.open().filter(pk=invitation.pk), withdrawn_at=now))


@transaction.atomic
def take_invitation(*, token: str, sign_in_name: str, password: str, now: datetime) -> User | None:
    """The person's own sign-in, with a password that nobody else knows; none where the link is good no more.

    ValidationError by field where the name is taken or not allowed, or the password too easy.
    """
    rows = Invitation.objects.select_for_update().working(now)
    row = rows.filter(token_hash=token_hash(token)).first()
    if row is None:
        return None
    first, _, last = row.name.rpartition(" ")
    user = add_person(
        name=sign_in_name,
        password=password,
        role=row.role,  # type: ignore[arg-type]
        first_name=first or last,
        last_name=last if first else "",
        mail=row.mail,
    )
    row.user, row.taken_at = user, now
    row.save(update_fields=["user", "taken_at"])
    return user
