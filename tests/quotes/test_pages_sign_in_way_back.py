"""From the forgotten password to the new one, by mail."""

from __future__ import annotations

import re
import threading
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.test import Client
from django.urls import reverse

from quotes.actions.mailing import BESIDE
from quotes.actions.ways_back import FROM_ONE_ADDRESS
from tests.cast import PASSWORD, desk
from tests.quotes.test_new_password import NEW
from tests.quotes.test_sign_in_pause import try_to_sign_in
from tests.quotes.test_signed_in import signed_in_by_form
from tests.quotes.test_ways_back import MAIL

pytestmark = pytest.mark.django_db


@pytest.fixture
def dessa() -> User:
    user = desk()
    user.email = MAIL
    user.save()
    return user


def ask(typed: str = MAIL) -> Any:
    answer = Client().post(reverse("forgotten"), {"email": typed}, follow=True)
    for thread in threading.enumerate():
        if thread.name == BESIDE:
            thread.join()
    return answer


def without_token(answer: Any) -> str:
    """The page but for its token against forgery, which differs every time."""
    return re.sub(r'(name="csrfmiddlewaretoken" value=)"\w+"', r"\1", answer.content.decode())


def link_sent() -> str:
    found = re.search(r"http://testserver(/\S+)", str(mail.outbox[-1].body))
    assert found is not None
    return found[1]


def follow(link: str, **change: str) -> Any:
    client = Client()
    form = client.get(link, follow=True)
    if not form.context["validlink"]:
        return form
    return client.post(form.redirect_chain[-1][0], {"new": NEW, "again": NEW, **change}, follow=True)


def test_the_link_lets_a_person_in_again_once(dessa: User) -> None:
    ask()
    link = link_sent()

    assert "The new password is kept." in follow(link).content.decode()
    assert try_to_sign_in("desk", NEW).status_code == 302
    assert "This link is good no more." in follow(link).content.decode()
    assert "This link is good no more." in Client().get(reverse("way-back", args=["x", "y"])).content.decode()


def test_the_mail_names_the_sign_in_and_the_shop(dessa: User) -> None:
    ask()
    (sent,) = mail.outbox

    assert sent.to == [MAIL]
    assert 'your sign-in "desk"' in str(sent.body)


def test_the_answer_is_the_same_whether_or_not_somebody_has_the_address(dessa: User) -> None:
    known, unknown = ask(), ask("nobody@workshop.example")

    assert len(mail.outbox) == 1
    assert known.redirect_chain == unknown.redirect_chain
    assert without_token(known) == without_token(unknown)


def test_who_asks_too_often_is_told_to_wait() -> None:
    for number in range(FROM_ONE_ADDRESS.times):
        assert ask(f"{number}@workshop.example").status_code == 200

    answer = ask()
    assert answer.status_code == 429
    assert "in 60 minutes" in answer.content.decode()


@pytest.mark.parametrize("typed", ["", "dessa", "a@b\x00.example"], ids=["none", "no address", "NUL"])
def test_what_is_no_address_is_told_at_its_field(typed: str) -> None:
    answer = ask(typed)

    assert '<a href="#id_email">' in answer.content.decode()
    assert not mail.outbox


def test_an_easy_password_is_refused_and_the_link_stays_good(dessa: User) -> None:
    ask()

    assert "at least 10 characters" in follow(link_sent(), new="short", again="short").content.decode()
    assert "The new password is kept." in follow(link_sent()).content.decode()


def test_a_person_says_where_the_link_goes_with_the_password_he_has() -> None:
    desk()
    client = signed_in_by_form()

    refused = client.post(reverse("own-mail"), {"mail": MAIL, "password": "wrong"})
    assert '<a href="#mail_password">' in refused.content.decode()
    client.post(reverse("own-mail"), {"mail": MAIL, "password": PASSWORD})
    assert User.objects.get(username="desk").email == MAIL
