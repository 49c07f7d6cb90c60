"""A new password ends what was signed in with the old one."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.test import Client
from django.urls import reverse

from quotes.actions.sign_ins import change_password
from quotes.models import SignIn
from tests.cast import PASSWORD, desk
from tests.quotes.test_signed_in import begun, signed_in_by_form

pytestmark = pytest.mark.django_db

NEW = "seven brown valve caps"


def keep(client: Client, **change: str) -> Any:
    typed = {"password": PASSWORD, "new": NEW, "again": NEW, **change}
    return client.post(reverse("new-password"), typed, follow=True)


def test_the_present_session_goes_on_and_all_others_end() -> None:
    desk()
    here, there, unnoted = signed_in_by_form(), signed_in_by_form(), Client()
    unnoted.force_login(desk())

    assert "The new password is kept." in keep(here).content.decode()

    assert User.objects.get(username="desk").check_password(NEW)
    assert SignIn.objects.get().session_id == here.session.session_key
    assert here.get(reverse("own-sign-in")).status_code == 200
    assert there.get(reverse("own-sign-in")).status_code == 302
    assert unnoted.get(reverse("own-sign-in")).status_code == 302


def test_an_easy_password_is_refused_and_nothing_ends() -> None:
    other = begun(desk())

    with pytest.raises(ValidationError, match="too short"):
        change_password(user=desk(), password="short", session_key=None)
    assert User.objects.get(username="desk").check_password(PASSWORD)
    assert SignIn.objects.get() == other
