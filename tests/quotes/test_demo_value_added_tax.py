"""The demo workshop in value-added-tax style."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from quotes.models import Revision
from quotes.queries.set_up import set_up_gaps
from quotes.queries.sheets import sheet_of
from quotes.queries.workshop import shop_rules
from tests.quotes.demo_loaded import counted, load, loaded_once


@pytest.fixture(scope="module", autouse=True)
def demo(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    yield from loaded_once("value-added-tax", django_db_blocker)


# The demo in sales-tax style is loaded on both by the same action.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


def test_loading_it_again_adds_nothing() -> None:
    first = counted()

    load("value-added-tax")

    assert counted() == first


def test_its_set_up_is_complete() -> None:
    assert set_up_gaps() == ()


def test_everything_is_taxed_at_one_rate() -> None:
    sheet = sheet_of(Revision.objects.latest("issued_at"))

    rates = {group.rate_pct for option in sheet.comparison.options for group in option.tax_groups}

    assert rates == {20}


def test_it_is_in_euros_on_a4_and_in_kilometres() -> None:
    sheet = sheet_of(Revision.objects.latest("issued_at"))

    assert (sheet.comparison.currency, sheet.heading.paper) == ("EUR", "A4")
    assert shop_rules(timezone.localdate()).distance_unit == "km"
