"""Where a person is signed in, and how that ends."""

from __future__ import annotations

from datetime import datetime, timedelta
from importlib import import_module
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.contrib.sessions.models import Session
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.actions.signed_in import begin_sign_in, end_other_sign_ins, end_sign_in, note_use
from quotes.models import SignIn
from quotes.queries.sign_ins import sign_ins_of
from tests.cast import PASSWORD, desk, person

pytestmark = pytest.mark.django_db

NOW = timezone.now()
EARLIER = NOW - timedelta(hours=1)
FIREFOX = "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0"


def begun(user: User, at: datetime = NOW, browser: str = FIREFOX) -> SignIn:
    store: Any = import_module(settings.SESSION_ENGINE).SessionStore()
    store.create()
    begin_sign_in(
        user=user,
        session_key=store.session_key,
        browser=browser,
        address="192.0.2.7",
        now=at,
        used_after=at - timedelta(hours=2),
    )
    return SignIn.objects.get(session_id=store.session_key)


def test_a_person_sees_his_own_the_present_one_first() -> None:
    present, other = begun(desk(), EARLIER), begun(desk())
    begun(person("builder"))

    seen = sign_ins_of(desk(), session_key=present.session_id, now=NOW, used_after=NOW - timedelta(hours=2))
    assert [(one.pk, one.present, one.browser) for one in seen] == [
        (present.pk, True, "Firefox on Linux"),
        (other.pk, False, "Firefox on Linux"),
    ]


def test_what_was_left_idle_is_not_seen_and_goes_at_the_next_sign_in() -> None:
    left = begun(desk(), NOW - timedelta(hours=3))
    assert not sign_ins_of(desk(), session_key=None, now=NOW, used_after=NOW - timedelta(hours=2))

    kept = begun(person("builder"))
    note_use(session_key=kept.session_id, now=NOW + timedelta(hours=2))
    begun(desk(), NOW + timedelta(hours=3))
    assert not Session.objects.filter(pk=left.session_id).exists()
    assert Session.objects.filter(pk=kept.session_id).exists()


def test_nobody_ends_the_sign_in_of_another() -> None:
    other = begun(person("builder"))

    assert end_sign_in(user=desk(), pk=other.pk) is None
    assert end_other_sign_ins(user=desk(), session_key=None) == 0
    assert Session.objects.filter(pk=other.session_id).exists()


def signed_in_by_form() -> Client:
    client = Client(headers={"User-Agent": FIREFOX})
    client.post(reverse("sign-in"), {"username": "desk", "password": PASSWORD})
    return client


def test_a_session_that_is_ended_opens_nothing_more() -> None:
    desk()
    here, there = signed_in_by_form(), signed_in_by_form()
    row = SignIn.objects.get(session_id=there.session.session_key)
    assert there.get(reverse("own-sign-in")).status_code == 200

    here.post(reverse("end-sign-in", args=[row.pk]))

    assert there.get(reverse("own-sign-in")).status_code == 302
    assert here.get(reverse("own-sign-in")).status_code == 200
