"""The owner's page of the people, and the way in of who was invited."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.test import Client, override_settings
from django.urls import reverse

from quotes.models import Invitation
from quotes.views import team
from tests.cast import desk, owner

pytestmark = pytest.mark.django_db

GIVEN = {"name": "Ines Calder", "role": "builder", "mail": "ines@workshop.example"}
OWN = {"name": "ines", "new": "a-sentence-of-her-own", "again": "a-sentence-of-her-own"}


@pytest.fixture(autouse=True)
def mailed_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a test keeps is never committed. After the commit it goes out in `test_mail_down.py`."""
    monkeypatch.setattr(team, "on_commit", lambda then: then())


@pytest.fixture
def at_owner(client: Client) -> Client:
    client.force_login(owner())
    return client


def invited(client: Client, **change: str) -> Any:
    return client.post(reverse("people-invite"), GIVEN | change, follow=True)


def link_sent() -> str:
    found = re.search(r"http://testserver(/\S+)", str(mail.outbox[-1].body))
    assert found is not None
    return found[1]


def said(answer: Any) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())


def test_the_mail_leads_to_a_password_of_ones_own_and_in(at_owner: Client) -> None:
    assert "The link is on its way to ines@workshop.example." in said(invited(at_owner))
    person = Client()
    assert "Welcome, Ines Calder." in said(person.get(link_sent()))

    came = person.post(link_sent(), OWN, follow=True)

    assert came.redirect_chain == [(reverse("home"), 302)]
    assert came.context["user"].username == "ines"
    assert "ines@workshop.example, one" not in said(at_owner.get(reverse("people")))
    assert Client().get(link_sent()).status_code == 404


@override_settings(REQUIRE_CODES=True)
def test_who_must_have_codes_sets_them_up_before_getting_in(at_owner: Client) -> None:
    invited(at_owner, role="books")
    person = Client()

    came = person.post(link_sent(), OWN, follow=True)

    assert came.redirect_chain[-1] == (reverse("codes-set-up"), 302)
    assert person.get(reverse("home")).status_code == 302


def test_what_is_wrong_stands_at_its_field_and_what_was_typed_stays(at_owner: Client) -> None:
    wrong = invited(at_owner, role="", mail="ines")
    assert "This is no mail address" in said(wrong)
    assert 'value="Ines Calder"' in wrong.content.decode()

    invited(at_owner)
    desk()
    again = Client().post(link_sent(), OWN | {"name": "DESK", "new": "short"})
    assert "“DESK” is taken: choose another." in said(again)
    assert "at least 10" in said(again)
    assert not User.objects.filter(username="ines").exists()


def test_a_mail_that_can_not_be_sent_is_said_and_the_invitation_waits(
    at_owner: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def down(*args: object) -> int:
        raise ConnectionRefusedError

    monkeypatch.setattr(EmailBackend, "send_messages", down)

    assert "could not be sent. Send it again in a while." in said(invited(at_owner))
    assert Invitation.objects.open().count() == 1


def test_an_invitation_is_sent_again_and_withdrawn_by_a_press(at_owner: Client) -> None:
    invited(at_owner)
    first, pk = link_sent(), Invitation.objects.get().pk

    at_owner.post(reverse("invitation-send", args=[pk]))
    assert link_sent() != first
    assert Client().get(first).status_code == 404

    at_owner.post(reverse("invitation-withdraw", args=[pk]))
    assert Client().get(link_sent()).status_code == 404


def test_a_wrong_link_says_the_same_whatever_is_wrong_with_it(at_owner: Client) -> None:
    invited(at_owner)
    at_owner.post(reverse("invitation-withdraw", args=[Invitation.objects.get().pk]))

    withdrawn, never = Client().get(link_sent()), Client().get(reverse("invited", args=["A" * 22]))

    assert (withdrawn.status_code, withdrawn.content) == (never.status_code, never.content)


def test_a_sign_in_that_is_closed_ends_where_it_is_open(at_owner: Client) -> None:
    other = Client()
    other.force_login(desk())

    at_owner.post(reverse("sign-in-close", args=[desk().pk]))

    assert other.get(reverse("home")).status_code == 302
    assert "Open it again" in said(at_owner.get(reverse("people")))
    assert "Your own sign-in stays open" in said(
        at_owner.post(reverse("sign-in-close", args=[owner().pk]), follow=True)
    )


def test_who_tries_many_wrong_links_waits_also_with_a_right_one(at_owner: Client) -> None:
    invited(at_owner)
    for number in range(30):
        assert Client().get(reverse("customer-quote", args=[f"wrong-{number}"])).status_code == 404

    waits = Client().get(link_sent())

    assert (waits.status_code, int(waits["Retry-After"]) > 0) == (429, True)
    assert Client().get(reverse("customer-quote", args=["wrong"])).status_code == 429
    assert Client(REMOTE_ADDR="198.51.100.7").get(link_sent()).status_code == 200


def test_mails_are_files_where_there_is_no_mail_server() -> None:
    assert settings.EMAIL_FILE_PATH == settings.DATA_DIR / "mail"
