"""What a reader may not open stays as words. tests/rights follows all links."""

from __future__ import annotations

import re

import pytest
from django.test import Client
from django.urls import reverse

from quotes.models import Job
from tests.bench.cast import stripped_job
from tests.cast import books, desk


@pytest.fixture
def job(db: None) -> Job:
    return stripped_job()


def links(client: Client, page: str) -> set[str]:
    found = re.findall(r'href="(/[^"?#]*)', client.get(page).content.decode())
    return {link for link in found if not link.startswith("/static/")}


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
