"""The page of keys: every key leads somewhere, and nobody is shown one to a page that is not for them."""

from __future__ import annotations

import re

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import resolve, reverse

from quotes.calc.keys import KEY_GROUPS
from quotes.queries.people import Role
from quotes.queries.rights import may_open
from tests.cast import person


def shown(client: Client, reader: User) -> set[str]:
    client.force_login(reader)
    return set(re.findall(r'data-page="([^"]+)"', client.get(reverse("keys")).content.decode()))


def test_the_owner_is_shown_every_key(db: None, client: Client) -> None:
    pages = {reverse(key.page) for group in KEY_GROUPS for key in group.keys if key.page}

    assert shown(client, person("owner")) == pages


@pytest.mark.parametrize("role", ["builder", "books"])
def test_a_key_leads_to_no_page_that_its_reader_may_not_open(db: None, client: Client, role: Role) -> None:
    pages = shown(client, person(role))

    assert pages
    assert all(may_open(person(role), resolve(page).view_name) for page in pages)
