"""The page on which parts are found."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from tests.cast import builder
from tests.catalogue.test_part_search import OLD, SPRING, four_articles

__all__ = ["four_articles"]
pytestmark = pytest.mark.django_db
PAGE = reverse("part-search")


@pytest.fixture
def at_the_bench(client: Client) -> Client:
    client.force_login(builder())
    return client


def test_the_page_holds_what_was_found_without_a_script(at_the_bench: Client) -> None:
    page = at_the_bench.get(PAGE, {"q": "valve spring"}).content.decode()
    assert SPRING in page
    assert f"now {SPRING}" in page
    assert "<h1" in page


def test_while_one_types_only_what_was_found_comes(at_the_bench: Client) -> None:
    piece = at_the_bench.get(PAGE, {"q": OLD}, headers={"HX-Request": "true"}).content.decode()
    assert OLD in piece
    assert "<h1" not in piece


def test_nothing_found_says_so(at_the_bench: Client) -> None:
    page = at_the_bench.get(PAGE, {"q": "xyzzy<b>"}).content.decode()
    assert "Nothing bears “xyzzy&lt;b&gt;”." in page


@pytest.mark.parametrize("typed", [OLD, "valve"])
def test_one_article_and_several_cost_the_same_queries(
    at_the_bench: Client, typed: str, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    at_the_bench.get(PAGE)
    with django_assert_num_queries(8):
        at_the_bench.get(PAGE, {"q": typed}, headers={"HX-Request": "true"})
