"""What must be ordered by a day: the day sheet says what the page of orders says, and reads less for it."""

from __future__ import annotations

from datetime import timedelta

import pytest
from pytest_django import DjangoAssertNumQueries

from quotes.queries import accepted
from quotes.queries.accepted import accepted_option, accepted_options
from quotes.queries.bench.parts.drafts import drafts, drafts_due
from tests.bench.parts_cast import ordered, real_build
from tests.quotes.cast import ON
from tests.shipped import load_shipped


@pytest.mark.django_db
def test_the_day_sheet_names_the_drafts_of_the_page_that_are_due(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    load_shipped()
    ordered(real_build(), "valve_spring")
    real_build("H4-20419")
    days = sorted({one.order_by for one in drafts(ON) if one.order_by})
    assert len(days) > 1

    for day in (days[0] - timedelta(days=1), days[0], days[-1]):
        of_page = [one for one in drafts(day) if one.order_by and one.order_by <= day]
        due = drafts_due(day)
        assert [(one.name, one.order_by, one.net) for one in due] == [
            (one.name, one.order_by, one.net) for one in of_page
        ]
    with django_assert_num_queries(13):
        drafts_due(days[-1])


@pytest.mark.django_db
def test_an_accepted_option_is_read_once_and_a_few_are_kept(
    monkeypatch: pytest.MonkeyPatch, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    monkeypatch.setattr(accepted, "_kept", {})
    monkeypatch.setattr(accepted, "KEPT", 1)
    load_shipped()
    build, other = real_build(), real_build("H4-20419", tier="mild")

    for each, queries in ((build, 1), (build, 0), (other, 1), (other, 0), (build, 1)):
        with django_assert_num_queries(queries):
            assert accepted_options([each]) == {each.pk: accepted_option(each)}
    assert accepted_options([build, other]).keys() == {build.pk, other.pk}
    assert len(accepted._kept) == 1
