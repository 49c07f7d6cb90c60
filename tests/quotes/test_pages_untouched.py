"""Two people on one page: who keeps his again keeps what he touched, and theirs where he typed nothing."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.calc.untouched import write_seen
from catalogue.views.untouched import fields_of
from quotes.models import Customer, Workshop
from tests.quotes.card_payload import signed_in, text_of
from tests.quotes.cast import customer, draft, engine

pytestmark = pytest.mark.usefixtures("catalogue")
PAGES = [
    ("customer", "telephone", "address"),
    ("settings", "telephone", "address"),
    ("quote-card", "planned-amount", "budget"),
]


@pytest.fixture
def address(workshop: Workshop, request: pytest.FixtureRequest) -> str:
    name = request.param
    if name == "customer":
        return reverse(name, args=[customer().pk])
    return reverse(name, args=[draft(engine(customer())).pk] if name == "quote-card" else [])


@pytest.mark.parametrize(("address", "mine", "theirs"), PAGES, indirect=["address"])
def test_what_was_not_touched_is_theirs_when_it_is_kept_again(address: str, mine: str, theirs: str) -> None:
    first, second = signed_in("owner"), signed_in("owner")
    as_opened = fields_of(second.get(address).content)
    _kept(first, address, {theirs: "14"})

    stale = second.post(address, as_opened | {"do": "keep", "seen": write_seen(as_opened), mine: "13"})

    assert "has changed this since you opened it" in text_of(stale)
    shown = fields_of(stale.content)
    assert (shown[mine], shown[theirs]) == (["13"], ["14"])
    assert second.post(address, shown | {"do": "keep"}).status_code == 302
    stands = fields_of(second.get(address).content)
    assert (stands[mine], stands[theirs]) == (["13"], ["14"])


def _kept(client: Client, address: str, change: dict[str, str]) -> None:
    answer = client.post(address, fields_of(client.get(address).content) | {"do": "keep"} | change)
    assert answer.status_code == 302, text_of(answer)


def test_without_the_note_of_what_was_seen_it_comes_back_as_it_was_sent(workshop: Workshop) -> None:
    address = reverse("customer", args=[customer().pk])
    client = signed_in("owner")
    as_opened = fields_of(client.get(address).content)
    _kept(client, address, {"address": "5 Yard"})

    stale = client.post(address, as_opened | {"telephone": "13", "seen": "nonsense"})

    assert fields_of(stale.content)["address"] == as_opened["address"]
    assert Customer.objects.get().address == "5 Yard"
