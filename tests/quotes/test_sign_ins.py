"""The first owner is added from the shell, before anyone can sign in."""

from __future__ import annotations

import io
import sys

import pytest
from django.contrib.auth.models import User
from django.core.management import CommandError, call_command
from django.http import HttpRequest
from django.test import Client

from quotes.queries.people import roles_of

GOOD = "seven brown valve caps"


def add(monkeypatch: pytest.MonkeyPatch, name: str, password: str) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(password + "\n"))
    call_command("add_person", name, "--role", "owner")


@pytest.mark.django_db
def test_a_person_added_from_the_shell_can_sign_in(monkeypatch: pytest.MonkeyPatch, client: Client) -> None:
    add(monkeypatch, "orla", GOOD)

    assert client.login(request=HttpRequest(), username="orla", password=GOOD)
    assert roles_of(User.objects.get(username="orla")) == {"owner"}


@pytest.mark.django_db
@pytest.mark.parametrize("password", ["", "short", "password123"], ids=["none", "short", "common"])
def test_an_easy_password_is_refused(monkeypatch: pytest.MonkeyPatch, password: str) -> None:
    with pytest.raises(CommandError, match="password"):
        add(monkeypatch, "orla", password)
    assert not User.objects.exists()


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["orla", "with space", "nul\x00"], ids=["taken", "space", "NUL"])
def test_a_name_that_is_taken_or_not_allowed_is_refused(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    add(monkeypatch, "orla", GOOD)

    with pytest.raises(CommandError):
        add(monkeypatch, name, GOOD)
    assert [user.username for user in User.objects.all()] == ["orla"]
