"""The demo workshop in sales-tax style."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from quotes.models import Booking, Engine, Enquiry, Quote, Revision
from quotes.queries.set_up import set_up_gaps
from quotes.queries.sheets import sheet_of
from tests.quotes.demo_loaded import counted, load, loaded_once


@pytest.fixture(scope="module", autouse=True)
def demo(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    yield from loaded_once("sales-tax", django_db_blocker)


# What `make demo` serves is SQLite; tests/quotes/test_load_demo.py loads it on both.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


def test_loading_it_again_adds_nothing() -> None:
    first = counted()

    load()

    assert counted() == first


def test_its_set_up_is_complete() -> None:
    assert set_up_gaps() == ()


def test_it_shows_a_quote_in_every_state() -> None:
    states = Counter(quote.state for quote in Quote.objects.with_state(timezone.localdate()))

    assert states == {"draft": 1, "issued": 3, "asked": 1, "accepted": 2, "declined": 1, "lapsed": 1}


def test_one_call_waits_to_be_rung_back_and_one_has_a_week_on_the_bench() -> None:
    assert Enquiry.objects.open().get().customer.name == "Anton Reve"
    assert Enquiry.objects.in_state("booked").get().customer.name == "Sefa Brill"
    assert Booking.objects.standing().count() == 1


def test_it_has_engines_of_all_four_types_and_five_duties() -> None:
    assert set(Engine.objects.values_list("type_code", flat=True)) == {
        "single450",
        "twin650",
        "four600",
        "four1000",
    }
    assert set(Engine.objects.exclude(segments=None).values_list("segments__duty", flat=True)) == {
        "sprint",
        "track_day",
        "motocross",
        "hill_climb",
        "drag",
    }


def test_parts_are_taxed_and_labour_is_exempt() -> None:
    sheet = sheet_of(Revision.objects.latest("issued_at"))

    codes = {line.kind: line.tax_code for line in sheet.comparison.options[0].lines}

    assert (codes["labour"], codes["part"]) == ("labour", "sales")
    assert (sheet.comparison.currency, sheet.heading.paper) == ("USD", "Letter")


def test_every_option_that_was_issued_adds_up() -> None:
    for revision in Revision.objects.all():
        for option in sheet_of(revision).comparison.options:
            assert option.net.typical + option.tax.typical == option.gross.typical
            assert sum(line.net for line in option.lines) == option.net.typical


def test_numbers_follow_the_days_they_were_issued_on() -> None:
    firsts = Revision.objects.filter(index=1).order_by("issued_at").select_related("quote")

    numbers = [str(first.quote.number) for first in firsts]

    assert numbers == sorted(numbers)
