"""What is wrong with a new password stands at its field, and guessing the old one is paused."""

from __future__ import annotations

import pytest
from axes.models import AccessAttempt
from django.contrib.auth.models import User
from django.urls import reverse

from tests.cast import PASSWORD, desk
from tests.quotes.test_new_password import keep
from tests.quotes.test_sign_in_pause import TRIES
from tests.quotes.test_signed_in import signed_in_by_form

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("change", "field", "fault"),
    [
        ({"password": "wrong"}, "password", "This is not the password you have."),
        ({"password": ""}, "password", "This is needed."),
        ({"new": "short"}, "new", "at least 10 characters"),
        ({"new": "password123"}, "new", "too common"),
        ({"new": "a" * 129}, "new", "at most 128 characters"),
        ({"new": PASSWORD}, "new", "This is the password you have."),
        ({"again": "seven brown valve cups"}, "again", "not the same as the new one"),
    ],
    ids=["wrong", "none", "short", "common", "long", "the old one", "mistyped"],
)
def test_a_fault_stands_at_its_field_and_the_password_stays(
    change: dict[str, str], field: str, fault: str
) -> None:
    desk()
    answer = keep(signed_in_by_form(), **change)

    assert not answer.redirect_chain
    assert fault in " ".join(answer.context["form"].errors[field])
    assert f'<a href="#id_{field}">' in answer.content.decode()
    assert User.objects.get(username="desk").check_password(PASSWORD)


def test_guessing_the_old_password_is_paused() -> None:
    desk()
    client = signed_in_by_form()
    for _ in range(TRIES - 1):
        keep(client, password="wrong")

    assert "valve" not in AccessAttempt.objects.get().post_data
    assert keep(client, password="wrong").status_code == 429
    assert keep(client).status_code == 429
    assert client.get(reverse("own-sign-in")).status_code == 200
