"""The switch of language in the foot of every page."""

from __future__ import annotations

import re

import pytest
from django.test import Client
from django.urls import reverse

from tests.cast import desk

pytestmark = pytest.mark.django_db


def switched(client: Client, page: str) -> str:
    """The page that comes after the press in the foot of this one."""
    foot = client.get(page).content.decode().partition('<footer class="foot">')[2]
    sent = dict(re.findall(r'name="(next|language)" value="([^"]+)"', foot))
    return client.post(reverse("language"), sent, follow=True).content.decode()


@pytest.mark.parametrize(
    ("page", "english", "german"),
    [("sign-in", "Sign in", "Anmelden"), ("own-sign-in", "Your sign-in", "Ihre Anmeldung")],
)
def test_a_press_in_the_foot_brings_the_same_page_in_german_and_back(
    client: Client, page: str, english: str, german: str
) -> None:
    if page != "sign-in":
        client.force_login(desk())

    assert f"<h1>{german}</h1>" in switched(client, reverse(page))
    assert f"<h1>{english}</h1>" in switched(client, reverse(page))
