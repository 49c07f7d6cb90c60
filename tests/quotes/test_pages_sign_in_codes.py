"""Signing in with a code after the password."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client, override_settings
from django.urls import reverse
from django.utils import timezone

from quotes.models import SignIn
from quotes.queries.people import Role
from quotes.views.signing_in.half_way import HALF_WAY, TRIES
from tests.cast import PASSWORD, owner, person
from tests.quotes.test_codes import later, set_up, shown

pytestmark = pytest.mark.django_db


def password_given(user: User, then: str = "/") -> Client:
    client = Client()
    client.post(reverse("sign-in"), {"username": user.get_username(), "password": PASSWORD, "next": then})
    return client


def give(client: Client, code: str) -> Any:
    return client.post(reverse("code"), {"code": code})


def test_the_password_alone_opens_nothing() -> None:
    set_up(owner())
    client = password_given(owner())

    assert client.get(reverse("home")).status_code == 302
    assert client.get(reverse("codes-set-up"))["Location"] == reverse("code")
    assert not SignIn.objects.exists()


def test_with_the_code_a_person_gets_where_he_was_going() -> None:
    set_up(owner())
    client = password_given(owner(), reverse("settings"))

    assert give(client, shown(owner()))["Location"] == reverse("settings")
    assert client.get(reverse("own-sign-in")).status_code == 200
    assert SignIn.objects.get().user == owner()


def test_a_wrong_code_is_told_at_its_field_and_after_five_the_password_is_asked_for_again() -> None:
    set_up(owner())
    client = password_given(owner())

    for _ in range(TRIES - 1):
        assert '<a href="#id_code">' in give(client, "no code").content.decode()
    assert give(client, "no code")["Location"] == reverse("sign-in")
    later(owner())
    assert give(client, shown(owner()))["Location"] == reverse("sign-in")


def test_the_password_counts_for_ten_minutes_and_only_while_it_stands() -> None:
    set_up(owner())
    late, changed = password_given(owner()), password_given(owner())
    session = late.session
    ago = timezone.now() - timedelta(minutes=11)
    session[HALF_WAY] = {**session[HALF_WAY], "at": ago.isoformat()}
    session.save()
    assert give(late, shown(owner()))["Location"] == reverse("sign-in")

    user = owner()
    user.set_password("seven brown valve caps")
    user.save()
    assert give(changed, shown(user))["Location"] == reverse("sign-in")


@pytest.mark.parametrize(
    ("role", "asked"), [("owner", True), ("books", True), ("desk", False), ("builder", False)]
)
@override_settings(REQUIRE_CODES=True)
def test_owner_and_books_set_codes_up_before_they_get_in(role: Role, asked: bool) -> None:
    client = password_given(person(role))

    assert (client.get(reverse("code")).status_code, client.get(reverse("home")).status_code) == (
        (302, 302) if asked else (302, 200)
    )
    assert SignIn.objects.exists() is not asked


@override_settings(REQUIRE_CODES=True)
def test_the_first_code_signs_in_and_tells_the_recovery_codes_once() -> None:
    client = password_given(owner())
    page = client.get(reverse("code"), follow=True).content.decode()
    assert 'src="data:image/svg+xml' in page

    told = client.post(reverse("codes-set-up"), {"code": shown(owner())}).content.decode()
    assert told.count("<li><b>") == 10
    assert client.get(reverse("own-sign-in")).status_code == 200
    assert client.get(reverse("codes-set-up"))["Location"] == reverse("own-sign-in")


def test_a_stranger_is_sent_to_the_sign_in(client: Client) -> None:
    for page in ("code", "codes-set-up"):
        assert client.get(reverse(page))["Location"] == reverse("sign-in")
