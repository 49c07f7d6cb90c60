"""The way back in by mail: how often it may be asked for, and what it ends."""

from __future__ import annotations

from datetime import timedelta

import pytest
from axes.models import AccessAttempt
from django.contrib.auth.models import User
from django.utils import timezone

from quotes.actions.ways_back import FROM_ONE_ADDRESS, TO_ONE_MAIL, AskedTooOften, come_back, note_ask
from quotes.models import SignIn
from tests.cast import desk
from tests.quotes.test_new_password import NEW
from tests.quotes.test_sign_in_pause import FAR, NEAR, try_till_paused, try_to_sign_in
from tests.quotes.test_signed_in import begun

pytestmark = pytest.mark.django_db

NOW = timezone.now()
MAIL = "dessa@workshop.example"


def test_nobodys_letter_box_is_filled() -> None:
    for number in range(TO_ONE_MAIL.times):
        assert note_ask(mail=MAIL, address=f"203.0.113.{number}", now=NOW)

    assert not note_ask(mail=MAIL.upper(), address=NEAR, now=NOW)
    assert note_ask(mail="bram@workshop.example", address=NEAR, now=NOW)
    assert note_ask(mail=MAIL, address=NEAR, now=NOW + timedelta(hours=1))


def test_a_visitor_asks_five_times_an_hour() -> None:
    for number in range(FROM_ONE_ADDRESS.times):
        note_ask(mail=f"{number}@workshop.example", address=NEAR, now=NOW + timedelta(minutes=number))

    with pytest.raises(AskedTooOften) as refused:
        note_ask(mail=MAIL, address=NEAR, now=NOW + timedelta(minutes=30))
    assert refused.value.until == NOW + timedelta(hours=1)
    assert note_ask(mail=MAIL, address=FAR, now=NOW + timedelta(minutes=30))
    assert note_ask(mail=MAIL, address=NEAR, now=refused.value.until)


def test_who_comes_back_is_signed_in_nowhere_and_need_not_wait() -> None:
    begun(desk())
    try_till_paused("desk")

    come_back(user=User.objects.get(username="desk"), password=NEW)

    assert not SignIn.objects.exists()
    assert not AccessAttempt.objects.exists()
    assert try_to_sign_in("desk", NEW).status_code == 302
