"""The pages on which an engine is taken in."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest
from django.test import Client

from quotes.models import Customer, Engine, Job, Workshop
from quotes.queries.people import Role
from tests.bench.cast import job
from tests.books.books_pages import browser
from tests.books.cast import build, vat_shop
from tests.quotes import cast
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk_page(db: None) -> Client:
    load_shipped()
    if not Workshop.objects.exists():
        vat_shop()
    return browser("desk")


def typed(**change: Any) -> dict[str, Any]:
    """An intake card as a browser sends it."""
    card = {
        "key": str(uuid4()),
        "brought_by": "Marel Otten",
        "right_to_hand_over": "owner",
        "delivered": "loose",
        "shelf": "B3",
        "tag": "",
        "mark_number": "H4-20417",
        "mark_first": "117",
        "mark_second": "117",
        "came_with": ["Key", "Logbook"],
        "also": "A crate\n\nTwo gaskets",
        "missing": "Dipstick",
        "service_amount": "4,300",
        "service_unit": "mi",
        "service_known": "logbook",
        "duty": "sprint",
    }
    return card | change


def test_the_way_in_offers_builds_that_were_said_yes_to(desk_page: Client) -> None:
    yes = build()
    page = desk_page.get("/bench/new/").content.decode()
    assert f"?quote={yes.quote_id}" in page
    assert "Marel Otten" in page
    job(quote=yes.quote)
    assert f"?quote={yes.quote_id}" not in desk_page.get("/bench/new/").content.decode()


def test_an_engine_is_found_and_its_card_asks_for_upper_and_lower_case(desk_page: Client) -> None:
    engine = cast.engine(cast.customer())
    found = desk_page.get("/bench/new/", {"q": "h4"}).content.decode()
    assert f"?engine={engine.pk}" in found
    card = desk_page.get(f"/bench/new/?engine={engine.pk}").content.decode()
    assert "Upper case half" in card
    assert "No engine fits" in desk_page.get("/bench/new/", {"q": "zz"}).content.decode()


def test_a_card_that_is_sent_twice_takes_in_one_engine(desk_page: Client) -> None:
    engine = cast.engine(cast.customer())
    card = typed()
    for _ in range(2):
        desk_page.post(f"/bench/new/?engine={engine.pk}", card)
    row = Job.objects.get()
    assert row.came_with == ["Key", "Logbook", "A crate", "Two gaskets"]
    assert row.marks[1] == ["Upper case half", "117"]
    assert row.tag == row.number
    assert row.service_amount == 4300


def test_hours_that_run_backwards_are_asked_about_and_what_was_typed_stays(desk_page: Client) -> None:
    engine = cast.engine(cast.customer())
    page = desk_page.post(f"/bench/new/?engine={engine.pk}", typed(service_amount="3900")).content.decode()
    assert "3900 mi is less than 4100" in page
    assert "It stays as it is said" in page
    assert "A crate" in page
    assert not Job.objects.exists()
    desk_page.post(f"/bench/new/?engine={engine.pk}", typed(service_amount="3900", backwards="on"))
    assert Job.objects.get().service_amount == 3900


def test_somebody_new_brings_an_engine_that_is_new(desk_page: Client) -> None:
    page = desk_page.post("/bench/new/?new", typed(customer="", new_name="", type="", number="")).content
    assert b"pick a name, or write somebody new" in page
    assert b"Nothing is picked" in page
    fresh = {"customer": "", "new_name": "Ansel Dray", "new_telephone": "000 555 0177"}
    desk_page.post("/bench/new/?new", typed(type="twin650", number="T7-1", **fresh))
    row = Job.objects.joined().get()
    assert (row.customer.name, row.engine.number) == ("Ansel Dray", "T7-1")
    assert Customer.objects.count() == Engine.objects.count() == 1


def test_an_engine_that_stands_here_is_not_taken_in_again(desk_page: Client) -> None:
    row = job()
    answer = desk_page.get(f"/bench/new/?engine={row.engine_id}")
    assert answer["Location"] == f"/bench/{row.pk}/"


def test_another_like_it_in_the_shop_is_named_with_its_tag(desk_page: Client) -> None:
    job(tag="blue 1")
    other = cast.engine(Customer.objects.get(), "H4-20999")
    assert "tag blue 1" in desk_page.get(f"/bench/new/?engine={other.pk}").content.decode()


@pytest.mark.parametrize(("role", "status"), [("builder", 200), ("owner", 200), ("books", 403)])
def test_who_takes_engines_in(role: Role, status: int) -> None:
    vat_shop()
    assert browser(role).get("/bench/new/").status_code == status
