"""Two people on one page: the second is told what the first has kept, and nothing that was typed is lost."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from quotes.actions.bench.limits import keep_instrument
from quotes.models import Instrument
from tests.books.books_pages import browser
from tests.books.cast import vat_shop
from tests.books.page_forms import form_of, text_of, typed
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db


@pytest.fixture
def gauge() -> Instrument:
    return keep_instrument(
        instrument=None, name="Bore gauge 3", unit="mm", checked_on=None, check_due_on=None, note="drawer 2"
    )


@pytest.fixture
def owner_page() -> Client:
    load_shipped()
    vat_shop()
    return browser("owner")


def kept(client: Client, gauge: Instrument, page: Any, **change: Any) -> Any:
    return client.post(reverse("instrument", args=[gauge.pk]), typed(page, **change))


def test_the_second_is_told_at_the_field_and_keeps_what_he_typed(
    owner_page: Client, gauge: Instrument
) -> None:
    address = reverse("instrument", args=[gauge.pk])
    mine, theirs = owner_page.get(address), owner_page.get(address)
    kept(owner_page, gauge, theirs, instrument__note="drawer 4", instrument__out_of_use="on")

    again = kept(owner_page, gauge, mine, instrument__note="lent to the front shop")

    said = text_of(again)
    assert "Somebody has changed this since you opened the page: from “drawer 2” to “drawer 4”." in said
    assert "from nothing to “True”" in said
    sent = form_of(again)
    assert sent["instrument-note"] == ["lent to the front shop"]
    assert sent["instrument-out_of_use"] == ["on"]
    gauge.refresh_from_db()
    assert gauge.note == "drawer 4"

    assert kept(owner_page, gauge, again).status_code == 302
    gauge.refresh_from_db()
    assert (gauge.note, gauge.out_of_use) == ("lent to the front shop", True)


def test_what_both_change_alike_is_kept_without_a_word(owner_page: Client, gauge: Instrument) -> None:
    page = owner_page.get(reverse("instrument", args=[gauge.pk]))

    for _ in range(2):
        assert kept(owner_page, gauge, page, instrument__note="drawer 4").status_code == 302


OVERWRITES = [
    ("running-in-rule", ("four600",)),
    ("teardown-prices", ()),
    ("booking-terms", ()),
    ("settings", ()),
    ("accounts", ()),
]


def test_every_page_that_puts_something_in_the_place_of_what_stands_knows_what_it_showed(
    owner_page: Client, gauge: Instrument
) -> None:
    for name, words in [("instrument", (gauge.pk,)), *OVERWRITES]:
        page = owner_page.get(reverse(name, args=words)).content.decode()
        assert 'name="version"' in page or 'name="initial-' in page, name


def test_untouched_forms_of_all_of_them_are_kept_as_they_were_shown(owner_page: Client) -> None:
    for name, words in OVERWRITES[:3]:
        address = reverse(name, args=words)
        page = owner_page.get(address)
        answer = owner_page.post(address, form_of(page))
        assert "Somebody has changed this" not in answer.content.decode(), name
