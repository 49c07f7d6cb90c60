"""The pages of lifed parts: entered by mark, fitted and taken out, and shown where the engine is shown."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.bench.lifed_parts import Before, register
from quotes.actions.bench.part_moves import MovedWhen, fit, scrap, take_out
from quotes.models import Engine, LifedPart
from tests.books.page_forms import text_of, typed
from tests.cast import builder
from tests.quotes import cast
from tests.shipped import load_shipped


@pytest.fixture
def engine(db: None) -> Engine:
    load_shipped()
    cast.workshop()
    return cast.engine(cast.customer(), "H4-1")


@pytest.fixture
def at_bench(client: Client, engine: Engine) -> Client:
    client.force_login(builder())
    return client


QUERIES = 19
"""What the list asks, however many parts there are."""


def crank(serial: str = "K-1", component: str = "crankshaft") -> LifedPart:
    before = Before(Decimal(20_000), "mi", "sprint")
    return register(component=component, type_code="four600", serial=serial, before=before)


def put(part: LifedPart, engine: Engine) -> None:
    now = timezone.now()
    move = MovedWhen(timezone.localdate(now) - timedelta(days=3))
    fit(part=part, engine=engine, move=move, by=builder(), now=now)


def entered(client: Client, **change: str) -> Any:
    address = f"{reverse('lifed-part-new')}?type=four600"
    told = {"part__component": "crankshaft", "part__serial": "K-7", "part__past": "new", **change}
    return client.post(address, typed(client.get(address), **told), follow=True)


def test_a_part_is_entered_in_the_engine_that_it_sits_in(at_bench: Client, engine: Engine) -> None:
    page = text_of(entered(at_bench, part__engine=str(engine.pk)))

    assert "Its age: new." in page
    assert "at 4,100 miles" in page
    assert "K-7" in text_of(at_bench.get(reverse("engine", args=[engine.pk])))


def test_what_is_typed_stays_where_the_age_before_is_not_said_whole(at_bench: Client) -> None:
    page = entered(at_bench, part__past="run", part__ran_before="300")

    assert "Nothing is picked: miles, kilometres, hours or runs." in text_of(page)
    assert 'value="K-7"' in page.content.decode()
    assert not LifedPart.objects.exists()


def test_a_mark_that_is_entered_already_is_said_at_its_field(at_bench: Client) -> None:
    crank("K-7")
    assert "'K-7' is entered already as crankshaft" in text_of(entered(at_bench))


def test_a_part_is_fitted_and_taken_out_on_its_page(at_bench: Client, engine: Engine) -> None:
    address = reverse("lifed-part", args=[crank().pk])

    page = at_bench.post(address, typed(at_bench.get(address), move__engine=str(engine.pk)), follow=True)
    assert "K-1 is in engine H4-1, fitted at 4,100 miles." in text_of(page)
    page = at_bench.post(address, typed(page), follow=True)
    assert "K-1 is on the shelf." in text_of(page)
    assert "Its age: 20,000 miles." in text_of(page)


def test_an_engine_that_holds_another_takes_no_second_one_and_the_page_says_so(
    at_bench: Client, engine: Engine
) -> None:
    put(crank(), engine)
    address = reverse("lifed-part", args=[crank("K-2").pk])

    page = at_bench.post(address, typed(at_bench.get(address), move__engine=str(engine.pk)))
    assert "Engine H4-1 holds K-1 in that place: take it out there first." in text_of(page)


def test_a_part_is_scrapped_on_its_page_and_leaves_the_list(at_bench: Client) -> None:
    address = reverse("lifed-part", args=[crank().pk])

    at_bench.post(address, typed(at_bench.get(address)) | {"scrap": "1"}, follow=True)

    assert "K-1" not in text_of(at_bench.get(reverse("lifed-parts")))
    assert "K-1" in text_of(at_bench.get(f"{reverse('lifed-parts')}?gone"))


def test_a_crank_is_reconditioned_on_its_page_without_leaving_its_engine(
    at_bench: Client, engine: Engine
) -> None:
    part = crank()
    put(part, engine)
    address = reverse("lifed-part", args=[part.pk])

    page = at_bench.post(address, typed(at_bench.get(address)) | {"recondition": "1"}, follow=True)
    assert "K-1 is reconditioned: what is left of its age counts on." in text_of(page)
    assert "63 % of its age counts on" in text_of(page)
    assert "Its age: 12,500 miles." in text_of(page)
    assert "It was reconditioned" not in text_of(page)


def test_the_logbook_tells_the_crank_by_its_own_age(at_bench: Client, engine: Engine) -> None:
    put(crank(), engine)
    page = text_of(at_bench.get(reverse("logbook", args=[engine.pk])))

    assert "Crankshaft K-1 20,000 miles" in page
    assert "crankshaft K-1 fitted" in page.lower().replace("k-1", "K-1")


def test_the_card_says_what_is_in_the_engine_with_an_age_of_its_own(at_bench: Client, engine: Engine) -> None:
    put(crank(), engine)
    page = text_of(at_bench.get("/quotes/new/", {"engine": engine.pk}))

    assert "Crankshaft K-1 has run 20,000 miles itself." in page


def test_the_list_costs_the_same_for_twenty_parts_as_for_one(
    at_bench: Client, engine: Engine, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    address = reverse("lifed-parts")
    put(crank(), engine)
    at_bench.get(address)
    with django_assert_num_queries(QUERIES):
        at_bench.get(address)
    for number in range(2, 21):
        part = crank(f"K-{number}")
        other = cast.engine(engine.customer, f"H4-{number}")
        put(part, other)
        take_out(part=part, move=MovedWhen(timezone.localdate()), by=builder(), now=timezone.now())
        fit(part=part, engine=other, move=MovedWhen(timezone.localdate()), by=builder(), now=timezone.now())
    scrap(part=crank("K-99"), on=timezone.localdate(), now=timezone.now())
    with django_assert_num_queries(QUERIES):
        at_bench.get(address)
