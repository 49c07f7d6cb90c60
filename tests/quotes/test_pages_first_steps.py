"""The owner of an empty workshop is led to the first quote, and no longer once it is issued."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.models import Basis, Part
from quotes.models import Revision, Workshop
from tests.cast import desk, owner


def shown(client: Client) -> str:
    return client.get(reverse("home")).content.decode()


def test_an_empty_workshop_begins_at_its_settings(no_catalogue: None, client: Client) -> None:
    client.force_login(owner())
    said = " ".join(shown(client).split())

    assert "0 of 5 done" in said
    assert f'<b>Next:</b> <a href="{reverse("settings")}">Give the workshop its name' in said


def test_only_the_owner_is_led(db: None, client: Client) -> None:
    client.force_login(desk())

    assert "First steps" not in shown(client)


def test_one_press_loads_the_price_list(no_catalogue: None, client: Client) -> None:
    client.force_login(owner())
    client.post(reverse("first-price-list"))

    assert Part.objects.exists()
    assert "1 of 5 done" in shown(client)


def test_another_currency_asks_for_its_rate_and_says_so_at_the_field(
    no_catalogue: None, client: Client
) -> None:
    Workshop.objects.create(id=Workshop.ONLY_ID, currency="EUR")
    client.force_login(owner())
    refused = client.post(reverse("first-price-list"), {"rate": "none"}).content.decode()

    assert "“none” is not a number" in refused
    assert not Part.objects.exists()
    client.post(reverse("first-price-list"), {"rate": "0.92"})
    assert Basis.objects.get().currency == "EUR"


@pytest.mark.usefixtures("revision")
def test_with_the_first_issued_quote_the_panel_goes(client: Client) -> None:
    client.force_login(owner())

    assert Revision.objects.exists()
    assert "First steps" not in shown(client)
