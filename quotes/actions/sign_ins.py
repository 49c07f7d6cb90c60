"""Writes on sign-ins: adding a person, a new password, lifting the pause after wrong passwords."""

from __future__ import annotations

from axes.utils import reset
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.people import give_role
from quotes.actions.refused import Refused
from quotes.actions.signed_in import end_other_sign_ins
from quotes.queries.people import Role


class OwnSignIn(Refused):
    """The one that somebody is signed in with."""

    def __init__(self) -> None:
        super().__init__(say("Your own sign-in stays open: somebody has to be able to open it again."))


@transaction.atomic
def add_person(
    *, name: str, password: str, role: Role, first_name: str = "", last_name: str = "", mail: str = ""
) -> User:
    """Add a person who may sign in, with one role to begin with.

    Raises ValidationError where the name is taken or not allowed, or the password too easy.
    """
    user = User(username=name, first_name=first_name, last_name=last_name, email=mail)
    validate_password(password, user)
    user.set_password(password)
    user.full_clean()
    user.save()
    give_role(user=user, role=role)
    return user


@transaction.atomic
def change_password(*, user: User, password: str, session_key: str | None) -> None:
    """Give a person another password and end all of his sessions but this one.

    Those that nobody noted end as well: what a session was signed with no longer fits.
    Raises ValidationError where the password is too easy.
    """
    validate_password(password, user)
    user.set_password(password)
    user.save(update_fields=["password"])
    end_other_sign_ins(user=user, session_key=session_key)


@transaction.atomic
def close_sign_in(*, user: User, by: User) -> None:
    """Let a person in no more, wherever signed in; what the person did stays. One's own stays open."""
    if user.pk == by.pk:
        raise OwnSignIn
    user.is_active = False
    user.save(update_fields=["is_active"])
    end_other_sign_ins(user=user, session_key=None)


def open_sign_in(*, user: User) -> None:
    """Let a person in again, with the password as it was."""
    user.is_active = True
    user.save(update_fields=["is_active"])


def lift_pause(*, name: str) -> int:
    """Forget the wrong passwords tried for a name, from every address; how many rows that were."""
    return int(reset(username=name))
