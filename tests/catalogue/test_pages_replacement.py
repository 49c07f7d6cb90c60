"""When a component is best renewed: on its own page and in a list, for the owner alone."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse

from quotes.models import Workshop
from tests.books.page_forms import text_of
from tests.cast import desk, owner


@pytest.fixture
def as_owner(client: Client, loaded: None) -> Client:
    client.force_login(owner())
    return client


def entry(client: Client, code: str) -> str:
    return text_of(client.get(reverse("catalogue:entry", args=["components", code])))


def test_a_component_s_page_shows_its_age_on_every_engine_type_and_basis(as_owner: Client) -> None:
    page = entry(as_owner, "valve_spring")
    assert "When to renew it" in page
    assert "In miles, standard tune on a track" in page
    assert "In hours, standard tune in motocross" in page
    row = page.split("In miles, standard tune")[1].split("600 inline four")[1]
    assert row.startswith(" 4,500 ")
    assert "40 % of its failures come without warning" in page


def test_what_is_never_renewed_for_its_age_says_so(as_owner: Client) -> None:
    assert "It is never renewed for its age" in entry(as_owner, "engine_oil")
    assert "comes new whenever it is reached" in entry(as_owner, "rod_bolt")
    assert "never: its hazard does not rise with age" in entry(as_owner, "cover")


def test_a_dearer_weekend_has_it_renewed_earlier(as_owner: Client) -> None:
    url = reverse("replacement-ages") + "?type=four600"
    before = {one.component: one.share_open for one in as_owner.get(url).context["rows"]}
    Workshop.objects.update_or_create(pk=Workshop.ONLY_ID, defaults={"weekend_loss": Decimal(5000)})
    page = as_owner.get(url)
    after = {one.component: one.share_open for one in page.context["rows"]}
    assert after["valve_spring"] < before["valve_spring"]
    assert "weekend ($5,000) lost" in text_of(page)


def test_the_list_has_what_differs_most_at_the_top(as_owner: Client) -> None:
    page = as_owner.get(reverse("replacement-ages"), {"type": "single450", "in": "hours_mx"})
    apart = [one.apart for one in page.context["rows"]]
    assert len(apart) > 40
    assert apart == sorted(apart, reverse=True)
    assert "Planned life, hours" in text_of(page)


def test_a_type_without_lives_on_a_basis_says_so(as_owner: Client) -> None:
    page = as_owner.get(reverse("replacement-ages"), {"type": "four600", "in": "hours_mx"})
    assert "No lives in hours." in text_of(page)


@pytest.mark.parametrize("asked", [{"type": "six900"}, {"in": "fortnights"}])
def test_a_type_or_a_unit_that_is_not_there_is_not_found(as_owner: Client, asked: dict[str, str]) -> None:
    assert as_owner.get(reverse("replacement-ages"), asked).status_code == 404


def test_without_a_catalogue_the_list_says_what_to_do(client: Client, no_catalogue: None) -> None:
    client.force_login(owner())
    assert "Nothing to weigh yet." in text_of(client.get(reverse("replacement-ages")))


def test_it_is_the_owner_s_alone(client: Client, loaded: None) -> None:
    client.force_login(desk())
    assert "When to renew it" not in entry(client, "valve_spring")
    assert client.get(reverse("replacement-ages")).status_code == 403
