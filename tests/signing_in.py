"""Signing in without a password, made once in a run and then written again."""

from __future__ import annotations

from datetime import date
from http.cookies import Morsel
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from tests.written_again import written_again

_plain = Client.force_login


def sign_in_quickly() -> None:
    """For as long as the process runs."""
    Client.force_login = _force_login  # type: ignore[assignment, method-assign]


def _force_login(self: Client, user: Any, backend: str | None = None) -> None:
    """In a fresh browser; where somebody has been signed in before, as Django does it."""
    name = settings.SESSION_COOKIE_NAME
    if name in self.cookies:
        _plain(self, user, backend)
    else:
        self.cookies[name] = _signed_in(user, timezone.localdate())


@written_again
def _signed_in(user: User, day: date) -> Morsel[str]:
    """The cookie of a sign-in on that day."""
    client = Client()
    _plain(client, user)
    return client.cookies[settings.SESSION_COOKIE_NAME]
