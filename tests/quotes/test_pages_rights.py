"""A page links only to what its reader may open; what he may not stays as words."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import resolve, reverse

from quotes.models import Job
from quotes.queries.rights import may_open
from tests.bench.cast import stripped_job
from tests.cast import books, builder, desk, owner


@pytest.fixture
def job(db: None) -> Job:
    return stripped_job()


def pages(job: Job) -> list[str]:
    """A customer's page, his engine's job, and what hangs on it."""
    assert job.quote is not None
    build = job.quote.acceptance
    return [
        reverse("customer", args=[job.customer_id]),
        reverse("job", args=[job.pk]),
        reverse("extra-work-list", args=[build.pk]),
        reverse("works-order-list", args=[job.pk]),
        reverse("build-money", args=[build.pk]),
    ]


def links(client: Client, page: str) -> set[str]:
    found = re.findall(r'href="(/[^"?#]*)', client.get(page).content.decode())
    return {link for link in found if not link.startswith("/static/")}


@pytest.mark.parametrize("who", [desk, builder, books, owner])
def test_no_link_leads_to_a_page_that_its_reader_may_not_open(
    client: Client, job: Job, who: Callable[[], User]
) -> None:
    user = who()
    client.force_login(user)

    for page in pages(job):
        for link in links(client, page):
            assert may_open(user, resolve(link).view_name), f"{page} leads to {link}"


def test_the_books_see_the_engine_and_the_quote_as_words(client: Client, job: Job) -> None:
    assert job.quote is not None
    page, quote = reverse("customer", args=[job.customer_id]), reverse("quote", args=[job.quote_id])
    client.force_login(books())
    shown = client.get(page).content.decode()
    assert str(job.engine.number) in shown
    assert str(job.quote.number) in shown
    assert not {quote, reverse("engine", args=[job.engine_id])} & links(client, page)

    client.force_login(desk())
    assert {quote, reverse("engine", args=[job.engine_id])} <= links(client, page)
