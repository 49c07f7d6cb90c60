"""The lists of customers and engines: found, sorted, in pages, taken away, at a fixed number of queries."""

from __future__ import annotations

import csv
import io

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.models import Engine, Workshop
from tests.cast import books
from tests.quotes import cast
from tests.quotes.card_payload import signed_in, text_of


def many(count: int) -> None:
    """So many customers with two engines and one quote each."""
    for index in range(count):
        mark = chr(ord("a") + index) * 3
        owner = cast.customer(f"Customer {mark}", telephone=f"555 {index:03}")
        cast.draft(cast.engine(owner, f"E-{mark}"))
        cast.engine(owner, f"F-{mark}")


def shown(client: Client, name: str, **asked: str) -> list[str]:
    response = client.get(reverse(name), asked)
    return [str(row.record) for row in response.context["table"].paginated_rows]


@pytest.mark.parametrize(
    ("name", "first"), [("customer-list", "Add a customer"), ("engine-list", "New quote")]
)
def test_an_empty_list_says_what_to_do_first(workshop: Workshop, name: str, first: str) -> None:
    page = text_of(signed_in().get(reverse(name)))
    assert "yet." in page
    assert first in page


@pytest.mark.parametrize("typed", ["customer bbb", "555 001", "BBB"])
def test_a_customer_is_found_by_name_or_telephone(workshop: Workshop, typed: str) -> None:
    many(3)
    assert shown(signed_in(), "customer-list", q=typed) == ["Customer bbb"]


@pytest.mark.parametrize("typed", ["F-bbb", "fbbb"])
def test_an_engine_is_found_by_number_with_and_without_dashes(workshop: Workshop, typed: str) -> None:
    many(3)
    assert shown(signed_in(), "engine-list", q=typed) == ["F-bbb"]


def test_two_engines_and_one_quote_are_counted_as_that(workshop: Workshop) -> None:
    many(1)
    taken = signed_in().get(reverse("customer-list"), {"as": "csv"}).content.decode("utf-8-sig")
    (row,) = csv.DictReader(io.StringIO(taken))
    assert (row["Engines"], row["Quotes"]) == ("2", "1")


def test_an_engine_without_a_number_can_still_be_opened(workshop: Workshop) -> None:
    engine = cast.engine(cast.customer(), "")
    page = signed_in().get(reverse("engine-list")).content.decode()
    assert f'<a href="{reverse("engine", args=[engine.pk])}">no number</a>' in page


@pytest.mark.parametrize("name", ["customer-list", "engine-list"])
def test_a_search_with_nul_is_told(workshop: Workshop, name: str) -> None:
    many(1)
    assert signed_in().get(reverse(name), {"q": "a\x00b"}).context["filter"].form.errors["q"]


@pytest.mark.parametrize("name", ["customer-list", "engine-list"])
@pytest.mark.parametrize("count", [1, 20])
def test_one_row_and_twenty_cost_the_same_queries(
    workshop: Workshop, name: str, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    many(count)
    client = signed_in()
    with django_assert_num_queries(8 if name == "engine-list" else 6):
        client.get(reverse(name))


def test_the_bookkeeper_has_no_list_of_engines(client: Client, workshop: Workshop) -> None:
    client.force_login(books())
    assert client.get(reverse("engine-list")).status_code == 403
    assert Engine.objects.count() == 0
