"""The owner's page of loads and tune, and the laws that it rests on."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.actions.entries import count_up
from catalogue.models import EngineType
from tests.cast import desk, owner
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db


@pytest.fixture
def at_the_owner_s(client: Client) -> Client:
    load_shipped()
    client.force_login(owner())
    return client


def page(client: Client, engine_type: str = "four600", tier: str = "full") -> str:
    shown = client.get(reverse("tune", args=[engine_type, tier]))
    assert shown.status_code == 200
    return shown.content.decode()


def test_geometry_stands_beside_the_trade_with_a_way_to_every_figure(at_the_owner_s: Client) -> None:
    shown = page(at_the_owner_s)
    assert "the trade's stands" in shown.replace("&#x27;", "'")
    assert reverse("catalogue:entry", args=["load_laws", "inertia"]) in shown
    tier = at_the_owner_s.get(reverse("catalogue:entry", args=["tiers", "full"])).content.decode()
    assert reverse("tune", args=["single450", "full"]) in tier
    engine = at_the_owner_s.get(reverse("catalogue:entry", args=["engine_types", "twin650"])).content.decode()
    assert reverse("tune", args=["twin650"]) in engine
    boldest = at_the_owner_s.get(reverse("tune", args=["twin650"])).content.decode()
    assert "Full power on the 650 parallel twin" in boldest


def test_an_engine_that_can_not_be_is_named_instead_of_a_number(at_the_owner_s: Client) -> None:
    EngineType.objects.filter(code="four600").update(rod_length_mm=20)
    count_up()
    assert "rod_length_m is 0.02: it must be above half the stroke" in page(at_the_owner_s)


def test_what_there_is_not_is_not_found_and_only_the_owner_looks(at_the_owner_s: Client) -> None:
    assert at_the_owner_s.get(reverse("tune", args=["four600", "wild"])).status_code == 404
    assert at_the_owner_s.get(reverse("tune", args=["moped", "full"])).status_code == 404
    at_the_owner_s.force_login(desk())
    assert at_the_owner_s.get(reverse("tune", args=["four600", "full"])).status_code == 403
