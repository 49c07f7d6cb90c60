"""A new person is invited, and alone sets the password."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.contrib.auth import authenticate
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.test import RequestFactory

from quotes.actions.invitations import (
    GOOD_FOR,
    TO_ONE_MAIL,
    Invited,
    NotOpen,
    SentTooOften,
    invite,
    send_again,
    take_invitation,
    withdraw_invitation,
)
from quotes.actions.sign_ins import OwnSignIn, close_sign_in, open_sign_in
from quotes.models import Invitation
from quotes.queries.people import name_of, roles_of
from tests.cast import PASSWORD, desk, owner
from tests.quotes.cast import NOW

pytestmark = pytest.mark.django_db


def asked(**change: Any) -> Invited:
    fields = {"name": "Ines Mara Calder", "role": "builder", "mail": "ines@workshop.example", "by": owner()}
    return invite(**(fields | {"now": NOW} | change))  # type: ignore[arg-type]


def taken(token: str, *, now: datetime = NOW, password: str = "a-sentence-of-her-own") -> User | None:
    return take_invitation(token=token, sign_in_name="ines", password=password, now=now)


def test_who_takes_it_has_the_name_role_and_mail_that_were_entered_and_an_own_password() -> None:
    user = taken(asked().token)

    assert user is not None
    assert (name_of(user), user.email, set(roles_of(user))) == (
        "Ines Mara Calder",
        "ines@workshop.example",
        {"builder"},
    )
    came = RequestFactory().post("/sign-in/")
    assert authenticate(came, username="ines", password="a-sentence-of-her-own") == user


def test_it_opens_once_and_only_its_hash_is_kept() -> None:
    made = asked()
    assert made.token not in str(Invitation.objects.values().get())

    assert taken(made.token) is not None
    assert taken(made.token) is None
    assert User.objects.filter(username="ines").count() == 1


def test_it_runs_out_after_three_days() -> None:
    made = asked()

    assert taken(made.token, now=NOW + GOOD_FOR) is None
    assert taken(made.token, now=NOW + GOOD_FOR - timedelta(seconds=1)) is not None


def test_sent_again_the_later_link_opens_and_the_earlier_no_more() -> None:
    first = asked()
    second = send_again(invitation=first.invitation, by=owner(), now=NOW + GOOD_FOR)

    assert taken(first.token) is None
    assert taken(second.token, now=NOW + GOOD_FOR + timedelta(hours=1)) is not None
    with pytest.raises(NotOpen):
        send_again(invitation=first.invitation, by=owner(), now=NOW)


def test_withdrawn_it_opens_nothing() -> None:
    made = asked()

    assert withdraw_invitation(invitation=made.invitation, now=NOW)
    assert taken(made.token) is None
    assert not withdraw_invitation(invitation=made.invitation, now=NOW)


def test_a_password_too_easy_keeps_the_invitation_open() -> None:
    made = asked()

    with pytest.raises(ValidationError):
        taken(made.token, password="password12")
    assert taken(made.token) is not None


def test_one_mail_address_has_one_invitation_open_and_one_sign_in() -> None:
    asked()
    with pytest.raises(ValidationError, match="open already"):
        asked(mail="INES@workshop.example")

    desk().email = "dessa@workshop.example"
    User.objects.filter(username="desk").update(email="dessa@workshop.example")
    with pytest.raises(ValidationError, match="desk signs in already"):
        asked(mail="Dessa@workshop.example")


def test_no_letter_box_is_filled() -> None:
    made = asked()
    for _ in range(TO_ONE_MAIL.times - 1):
        send_again(invitation=made.invitation, by=owner(), now=NOW)

    with pytest.raises(SentTooOften) as refused:
        send_again(invitation=made.invitation, by=owner(), now=NOW + timedelta(minutes=59))
    assert refused.value.until == NOW + timedelta(hours=1)


def test_a_closed_sign_in_lets_nobody_in_until_it_is_opened_again() -> None:
    close_sign_in(user=desk(), by=owner())
    came = RequestFactory().post("/sign-in/")
    assert authenticate(came, username="desk", password=PASSWORD) is None

    open_sign_in(user=desk())

    assert authenticate(came, username="desk", password=PASSWORD) == desk()
    with pytest.raises(OwnSignIn):
        close_sign_in(user=owner(), by=owner())
