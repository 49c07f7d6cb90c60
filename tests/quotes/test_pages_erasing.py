"""The page on which the owner sees what would be erased, and erases."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from quotes.models import Customer, Revision
from tests.cast import desk, owner


@pytest.fixture
def page(revision: Revision) -> str:
    return reverse("customer-erase", args=[revision.quote.customer_id])


def test_looking_lists_what_goes_and_changes_nothing(client: Client, page: str) -> None:
    client.force_login(owner())
    said = client.get(page).content.decode()

    assert "issued revisions: 1, name and address in the sheet, its papers" in said
    assert "Nothing has to be kept." in said
    assert Customer.objects.get().name == "Marel Otten"


def test_a_press_erases_and_the_page_says_when_it_was(client: Client, page: str) -> None:
    client.force_login(owner())
    client.post(page)
    said = client.get(page).content.decode()

    assert Customer.objects.get().name.startswith("erased customer C-")
    assert "Nothing is left to erase." in said
    assert "by Orla Venn." in said


def test_only_the_owner_is_shown_the_way_there(client: Client, page: str) -> None:
    ways = {}
    for who in (owner(), desk()):
        client.force_login(who)
        ways[who.username] = page in client.get(page.removesuffix("erase/")).content.decode()

    assert ways == {"owner": True, "desk": False}
