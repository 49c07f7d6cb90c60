"""What may be done only so often."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from quotes.actions.allowances import KEPT_FOR, OnlySoOften, count, used_up
from quotes.models import Allowance
from tests.quotes.test_at_once import at_once

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
TWICE = OnlySoOften("asking", 2)


@pytest.mark.django_db
def test_the_third_within_the_hour_waits_for_the_end_of_the_first() -> None:
    count(TWICE, who="a@workshop.example", now=NOW)
    count(TWICE, who="A@workshop.example", now=NOW + timedelta(minutes=10))

    third = NOW + timedelta(minutes=20)
    assert count(TWICE, who="a@workshop.example", now=third) == NOW + timedelta(hours=1)
    assert used_up(TWICE, who="a@workshop.example", now=third) == NOW + timedelta(hours=1)
    assert count(TWICE, who="a@workshop.example", now=NOW + timedelta(hours=1)) is None


@pytest.mark.django_db
def test_another_who_and_another_what_are_counted_apart() -> None:
    for _ in range(2):
        count(TWICE, who="a", now=NOW)

    assert count(TWICE, who="b", now=NOW) is None
    assert count(OnlySoOften("another", 2), who="a", now=NOW) is None
    assert used_up(TWICE, who="never came", now=NOW) is None


@pytest.mark.django_db
def test_nobody_is_listed_and_what_is_long_past_is_cleared_away() -> None:
    count(TWICE, who="a@workshop.example", now=NOW)
    assert "workshop" not in str(Allowance.objects.values().get())

    count(TWICE, who="b", now=NOW + KEPT_FOR + timedelta(minutes=1))

    assert Allowance.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_of_several_that_come_at_once_no_more_go_than_may() -> None:
    went = at_once(lambda _: count(TWICE, who="a", now=NOW) is None)

    assert sorted(went) == [False, False, True, True]
