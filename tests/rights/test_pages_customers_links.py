"""A customer's link opens all that is his, and nothing of another's, whatever is put into the address."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from quotes.actions.links import new_link, withdraw_link
from quotes.models import ExtraWork, Reply
from quotes.queries.rights import LINK, RIGHTS
from tests.cast import desk
from tests.rights.standing import Whole, two_customers

PAGES = [name for row in RIGHTS if row.who == LINK for name in row.names.split()]
SENT_TO = {"customer-accept", "customer-ask", "customer-decline"}
"""What a form is sent to: who comes by the address is shown the quote."""


@pytest.fixture(scope="module")
def both(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[tuple[Whole, Whole]]:
    with django_db_blocker.unblock(), two_customers() as made:
        yield made


@pytest.fixture
def marel(both: tuple[Whole, Whole], db: None) -> Whole:
    return both[0]


@pytest.fixture
def ines(both: tuple[Whole, Whole], db: None) -> Whole:
    return both[1]


_visitors = itertools.count(1)


def opened(token: str, name: str, **at: Any) -> Any:
    """Each from an address of its own, so that nobody has to wait after wrong ones."""
    visitor = Client(REMOTE_ADDR=f"2001:db8::{next(_visitors):x}")
    return visitor.get(reverse(name, kwargs={"token": token, **at}))


@pytest.fixture(scope="module")
def pages(both: tuple[Whole, Whole], django_db_blocker: DjangoDbBlocker) -> dict[str, HttpResponse]:
    """Every page of the first one's link, opened once."""
    of = both[0]
    with django_db_blocker.unblock():
        return {name: opened(of.token, name, **of.at(name)) for name in PAGES}


def test_every_page_of_a_link_opens_and_says_nothing_of_another_customer(
    pages: dict[str, HttpResponse], ines: Whole
) -> None:
    for name, page in pages.items():
        assert page.status_code == (302 if name in SENT_TO else 200), name
        said = page.content.decode(errors="replace")
        assert not [word for word in ines.said if word in said], name


def test_no_page_of_a_link_tells_another_site_its_address_or_is_kept_on_the_way(
    pages: dict[str, HttpResponse],
) -> None:
    for name, page in pages.items():
        assert page["Referrer-Policy"] == "no-referrer", name
        assert page["X-Robots-Tag"] == "noindex, nofollow", name
        assert "private" in page["Cache-Control"], name
        assert not page.cookies, name


def test_with_the_number_of_another_customers_thing_a_link_opens_nothing(marel: Whole, ines: Whole) -> None:
    nothing = opened("never-made", "customer-quote")
    tried = [name for name in PAGES if ines.at(name) != marel.at(name)]
    assert len(tried) == 6

    for name in tried:
        page = opened(marel.token, name, **ines.at(name))
        assert (page.status_code, page.content) == (404, nothing.content), name


def test_an_answer_to_another_customers_extra_work_is_not_taken(marel: Whole, ines: Whole) -> None:
    before = ExtraWork.objects.filter(pk=ines.extra.pk).values().get()
    address = reverse("customer-extra", args=[marel.token, ines.extra.pk])

    sent = Client().post(address, {"answer": "no", "name": "Marel Otten", "how": "page"})

    assert sent.status_code == 404
    assert ExtraWork.objects.filter(pk=ines.extra.pk).values().get() == before


def closed(of: Whole) -> dict[str, str]:
    """Tokens that open nothing, by why."""
    now = timezone.now()
    gone = new_link(quote=of.build.quote, by=desk(), now=now)
    withdraw_link(link=gone.link, now=now)
    old = new_link(quote=of.build.quote, by=desk(), now=now, expires_at=now - timedelta(seconds=1))
    return {
        "withdrawn": gone.token,
        "run out": old.token,
        "never made": "A" * 22,
        "cut short": gone.token[:-1],
    }


def headers(page: HttpResponse) -> dict[str, str]:
    """But for the time of day."""
    return {name: said for name, said in page.headers.items() if name != "Expires"}


def test_a_wrong_link_gives_nothing_away_on_any_page(marel: Whole) -> None:
    tokens = closed(marel)

    for name in PAGES:
        answers = {
            why: (page.status_code, page.content, headers(page))
            for why, token in tokens.items()
            for page in [opened(token, name, **marel.at(name))]
        }
        assert answers["withdrawn"][0] == 404, name
        assert len({repr(answer) for answer in answers.values()}) == 1, name


def test_a_wrong_link_takes_the_same_reads_whatever_is_wrong_with_it(marel: Whole) -> None:
    taken = {}
    for why, token in closed(marel).items():
        with CaptureQueriesContext(
            connection,
        ) as asked:
            opened(token, "customer-quote")
        taken[why] = len(asked)

    assert len(set(taken.values())) == 1, taken


def test_a_form_sent_by_a_wrong_link_keeps_nothing(marel: Whole) -> None:
    count = Reply.objects.count()

    for token in closed(marel).values():
        for name in SENT_TO:
            sent = Client().post(reverse(name, args=[token]), {"text": "When?", "name": "Marel Otten"})
            assert sent.status_code == 404

    assert Reply.objects.count() == count
