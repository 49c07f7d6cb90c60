"""The pages of enquiries and of the bench."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from quotes.models import Engine, Enquiry, Quote
from tests import cast as people
from tests.quotes import enquiry_cast

pytestmark = pytest.mark.usefixtures("workshop")


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(people.desk())
    return client


def text_of(response: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", response.content.decode()))


def queries(client: Client, url: str) -> int:
    client.get(url)
    with CaptureQueriesContext(connection) as caught:
        assert client.get(url).status_code == 200
    return len(caught)


@pytest.mark.parametrize("name", ["enquiry-list", "slots"])
def test_one_row_and_five_cost_the_same_queries(desk: Client, name: str) -> None:
    enquiry_cast.many(1, now=timezone.now(), booked=True)
    one = queries(desk, reverse(name))
    enquiry_cast.many(5, now=timezone.now(), booked=True)
    assert queries(desk, reverse(name)) == one


def test_empty_pages_say_what_to_do_first(desk: Client) -> None:
    assert "No enquiries yet." in text_of(desk.get(reverse("enquiry-list")))
    assert "Nothing is promised yet." in text_of(desk.get(reverse("slots")))


def test_the_list_shows_state_and_band_and_is_narrowed_by_them(desk: Client) -> None:
    first, second = enquiry_cast.many(2)
    enquiry_cast.booking(first)
    everything = text_of(desk.get(reverse("enquiry-list")))
    assert f"{first.number} booked Rider 0" in everything
    assert f"{second.number} open Rider 1" in everything
    assert f"{first.said_from:,.0f} {first.said_to:,.0f}" in everything
    booked = text_of(desk.get(reverse("enquiry-list"), {"state": "booked"}))
    assert (first.number in booked, second.number in booked) == (True, False)
    found = text_of(desk.get(reverse("enquiry-list"), {"q": "RIDER1 yard"}))
    assert (first.number in found, second.number in found) == (False, True)


def test_the_list_is_taken_away_with_words_for_states(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    lines = desk.get(reverse("enquiry-list"), {"as": "csv"}).content.decode("utf-8-sig").splitlines()
    assert lines[1].startswith(f"{row.number},open,Marel Otten,600 inline four,H4-20417,")


@pytest.mark.parametrize("name", ["enquiry-list", "import-customers"])
def test_who_has_nothing_to_do_with_calls_is_kept_out(client: Client, name: str) -> None:
    client.force_login(people.books())
    assert client.get(reverse(name)).status_code == 403


def test_only_the_owner_sets_the_terms(desk: Client) -> None:
    assert desk.get(reverse("booking-terms")).status_code == 403


def test_the_card_shows_the_band_and_subject_to_strip_down(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine, symptoms="Smokes on the overrun")
    page = text_of(desk.get(reverse("enquiry", args=[row.pk])))
    assert f"${row.said_from:,.0f}" in page
    assert "Each of these is subject to strip-down." in page
    assert "Smokes on the overrun" in page


def card(row: Enquiry, **change: str) -> dict[str, str]:
    return {"version": str(row.version), "caller": "Marel", "needed_on": "", "budget": ""} | change


def test_the_card_is_filled_in(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    sent = card(row, budget="4,500", needed_on="2027-03-20", who_pays="The team")
    assert desk.post(reverse("enquiry", args=[row.pk]), sent).status_code == 302
    row.refresh_from_db()
    assert (f"{row.budget}", f"{row.needed_on}", row.who_pays) == ("4500.00", "2027-03-20", "The team")


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("budget", "lots", "“lots” is not a number from 0.01"),
        ("budget", "-5", "“-5” is not a number from 0.01"),
        ("needed_on", "next spring", "“next spring” is not a day"),
        ("caller", "x" * 300, "has 300 characters: at most 200"),
        ("note", "a\x00b", "holds a character that can't be kept"),
    ],
)
def test_a_fault_stands_at_its_field_and_what_was_typed_stays(
    desk: Client, engine: Engine, field: str, typed: str, said: str
) -> None:
    row = enquiry_cast.enquiry(engine)
    response = desk.post(reverse("enquiry", args=[row.pk]), card(row, **{field: typed}))
    assert response.status_code == 422
    form = response.context["form"]
    assert said in form.errors[field][0]
    assert form[field].value() == typed
    row.refresh_from_db()
    assert row.version == 1


def test_a_card_that_somebody_else_has_changed_shows_both(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    desk.post(reverse("enquiry", args=[row.pk]), card(row, fuel="98 octane"))
    response = desk.post(reverse("enquiry", args=[row.pk]), card(row, fuel="race fuel"))
    assert response.status_code == 409
    assert "98 octane race fuel" in text_of(response)


def test_an_enquiry_is_kept_as_a_quote_from_its_page(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    response = desk.post(reverse("enquiry-quote", args=[row.pk]))
    assert response["Location"] == reverse("quote", args=[Quote.objects.get().pk])


def test_an_enquiry_is_dropped_from_its_page_with_a_reason(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    address = reverse("enquiry-drop", args=[row.pk])
    assert desk.post(address, {"because": ""}).status_code == 422
    assert desk.post(address, {"because": "Sold the engine"}).status_code == 302
    assert "Sold the engine" in text_of(desk.get(reverse("enquiry", args=[row.pk])))


def test_the_bench_page_names_hours_and_who_begins(desk: Client) -> None:
    row = enquiry_cast.many(1, now=timezone.now(), booked=True)[0]
    booking = row.bookings.get()
    page = text_of(desk.get(reverse("slots")))
    assert f"{booking.number} Rider 0" in page
    drawn = desk.get(reverse("slots")).content.decode()
    assert "hours promised of 32.5" in drawn
    assert "style=" not in drawn


def test_a_week_gone_by_is_pointed_out(desk: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    type(booked).objects.update(slot_week="2020-01-06")
    assert "Week gone by." in text_of(desk.get(reverse("slots")))
