"""No page shows its reader a link, or a form, that leads to a page which would refuse him.

Builder and books are refused most; the owner may open everything, and the desk nearly so.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.urls import reverse
from pytest_django import DjangoDbBlocker

from quotes.queries.people import Role
from quotes.queries.rights import may_open
from tests.cast import person
from tests.rights.followed import blind_alleys
from tests.rights.standing import Whole, two_customers


@pytest.fixture(scope="module")
def marel(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[Whole]:
    with django_db_blocker.unblock(), two_customers() as made:
        yield made[0]


@pytest.mark.parametrize("role", ["books"])
def test_no_link_leads_to_a_page_that_its_reader_may_not_open(db: None, marel: Whole, role: Role) -> None:
    job, build = marel.job, marel.build
    starts = {
        "home": [],
        "job": [job.pk],
        "customer": [marel.customer.pk],
        "engine": [job.engine_id],
        "quote": [build.quote_id],
        "build-money": [build.pk],
        "invoice": [marel.invoice.pk],
        "payment": [marel.payment.pk],
        "extra-work": [marel.extra.pk],
        "books-home": [],
    }
    begin = [reverse(name, args=args) for name, args in starts.items() if may_open(person(role), name)]

    wrong, seen = blind_alleys(person(role), begin)

    assert wrong == []
    assert len(seen) > 15, seen
