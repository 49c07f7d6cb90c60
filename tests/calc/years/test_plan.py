"""What becomes of the quotes of ten years."""

from __future__ import annotations

from collections import Counter

import pytest

from quotes.calc.years.articles import article
from quotes.calc.years.names import engine_number, person
from quotes.calc.years.plan import BENCH_HOLDS, COURSES, DAYS, threads


@pytest.mark.parametrize("quotes", [1_000, 20_000])
def test_half_of_the_quotes_are_built_and_invoiced(quotes: int) -> None:
    kinds = Counter(thread.kind for thread in threads(quotes, seed=1))
    assert sum(kinds.values()) == pytest.approx(quotes, rel=0.01)
    assert kinds["paid"] + kinds["unpaid"] == quotes // 2


def test_a_small_workshop_has_one_of_each_kind() -> None:
    assert {thread.kind for thread in threads(10, seed=1)} == set(COURSES)


def test_what_the_bench_holds_does_not_grow_with_the_years() -> None:
    in_hand = [thread for thread in threads(50_000, seed=1) if thread.kind == "in_hand"]
    assert len(in_hand) == BENCH_HOLDS


def test_they_come_in_the_order_of_their_days_and_none_is_still_to_come() -> None:
    days = [thread.days_ago for thread in threads(2_000, seed=1)]
    assert days == sorted(days, reverse=True)
    assert min(days) >= 0
    assert max(days) <= DAYS


def test_everything_that_comes_of_a_quote_has_come_by_today() -> None:
    assert all(thread.days_ago >= COURSES[thread.kind].latest for thread in threads(2_000, seed=1))


def test_the_same_seed_gives_the_same_and_another_another() -> None:
    assert threads(500, seed=1) == threads(500, seed=1)
    assert threads(500, seed=1) != threads(500, seed=2)
    assert person(1, 7) == person(1, 7)
    assert [person(1, index).name for index in range(20)] != [person(2, index).name for index in range(20)]


def test_no_two_have_one_number() -> None:
    engines = {engine_number(1, index) for index in range(3_000)}
    articles = {article(1, index).key for index in range(3_000)}
    assert len(engines) == len(articles) == 3_000


def test_a_number_that_was_replaced_names_a_later_article() -> None:
    numbers = {article(1, index).number: index for index in range(200)}
    assert numbers[article(1, 40).superseded_by] > 40
    assert article(1, 41).superseded_by == ""
