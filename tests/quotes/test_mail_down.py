"""The mail server refuses, or says nothing: clear words, nothing half, and no try doubles anything."""

from __future__ import annotations

import logging
import re
import socket
from collections.abc import Iterator
from typing import Any

import pytest
from django.core import mail
from django.test import Client, override_settings
from django.urls import reverse

from quotes.actions import mailing
from quotes.models import Invitation
from tests.cast import owner
from tests.rights.test_pages_invitations import GIVEN, said

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.one_database]
# A mail goes out past the database, so the second would show nothing new.
SMTP = "django.core.mail.backends.smtp.EmailBackend"
TIMEOUT = 0.2


@pytest.fixture(params=["refuses", "says nothing"])
def mail_down(request: pytest.FixtureRequest) -> Iterator[None]:
    """A port that nobody listens on, or one that takes a caller and never speaks."""
    with socket.socket() as port:
        port.bind(("127.0.0.1", 0))
        if request.param == "says nothing":
            port.listen()
        at = {"EMAIL_HOST": "127.0.0.1", "EMAIL_PORT": port.getsockname()[1], "EMAIL_TIMEOUT": TIMEOUT}
        with override_settings(EMAIL_BACKEND=SMTP, EMAIL_USE_TLS=False, **at):
            yield


def sent(client: Client) -> Any:
    """An invitation as its page sends it, the token against forgery with it."""
    page = client.get(reverse("people")).content.decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
    assert token is not None
    return GIVEN | {"csrfmiddlewaretoken": token[1]}


def test_an_invitation_is_kept_says_that_no_mail_went_and_is_sent_again_once(
    client: Client, mail_down: None, caplog: pytest.LogCaptureFixture
) -> None:
    client.force_login(owner())
    form = sent(client)
    caplog.set_level(logging.CRITICAL, mailing.__name__)

    told = said(client.post(reverse("people-invite"), form, follow=True))
    again = said(client.post(reverse("people-invite"), form, follow=True))

    assert "The mail to ines@workshop.example could not be sent. Send it again in a while." in told
    assert "on its way" not in told + again
    assert "This form had come before: it was kept once" in again
    row = Invitation.objects.get()
    with override_settings(EMAIL_BACKEND="django.core.mail.backends.locmem.EmailBackend"):
        client.post(reverse("invitation-send", args=[row.pk]))
    assert len(mail.outbox) == 1
    assert Invitation.objects.get().token_hash != row.token_hash


def test_a_forgotten_password_answers_the_same_and_may_be_asked_for_again(
    client: Client, mail_down: None, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    person = owner()
    person.email = "owner@workshop.example"
    person.save()
    caplog.set_level(logging.CRITICAL, mailing.__name__)
    monkeypatch.setattr(mailing, "send_beside", mailing.send)

    down = client.post(reverse("forgotten"), {"email": person.email}, follow=True)
    with override_settings(EMAIL_BACKEND="django.core.mail.backends.locmem.EmailBackend"):
        up = client.post(reverse("forgotten"), {"email": person.email}, follow=True)

    assert down.status_code == 200
    assert down.redirect_chain == up.redirect_chain
    assert said(down) == said(up)
