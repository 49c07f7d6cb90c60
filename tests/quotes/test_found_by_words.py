"""Quotes and invoices found by words, held against looking at each one's own words."""

from __future__ import annotations

from itertools import product

import pytest

from catalogue.calc.search_key import search_key
from quotes.models import Quote, words
from tests.quotes import cast

pytestmark = pytest.mark.django_db
OWNERS = ("Zoë Šafář", "Marel Tamarkin", "Marel Safar", "Qu 7 Racing")
NUMBERS = ("KA-001", "SAF-26")
TYPED = (
    *("zoe SAFAR", "marel tam", "saf", "safar saf26", "marel ka001", "ka 001", "marel 26", "q", "qu"),
    *("q2026", "0002", "7", "ka tam 0", "nobody", "marel nobody", "a", "-", "0001 zoe", "š"),
)


@pytest.fixture
def quotes(workshop: object) -> list[Quote]:
    made = []
    for place, (owner, number) in enumerate(product(OWNERS, NUMBERS)):
        quote = cast.draft(cast.engine(cast.customer(f"{owner}"), f"{number}-{place}"))
        if place % 3:
            cast.issued(quote)
        made.append(quote)
    return list(Quote.objects.select_related("customer", "engine"))


def bears(quote: Quote, word: str) -> bool:
    keys = (quote.search_key, quote.customer.search_key, quote.engine.search_key)
    return any(word in key for key in keys)


@pytest.mark.parametrize("most", [1000, 2], ids=["few", "many"])
def test_every_word_stands_in_what_is_found_and_nothing_else_is(
    quotes: list[Quote], most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(words, "MOST_KEYS", most)
    for typed in TYPED:
        wanted = {one.pk for one in quotes if all(bears(one, word) for word in search_key(typed).split())}

        assert set(Quote.objects.found_by(typed).values_list("pk", flat=True)) == wanted, typed


def test_a_word_that_is_no_part_of_a_number_is_not_looked_for_there() -> None:
    assert all(map(words.may_stand_in_a_number, ("q", "q2026", "q20260001", "0001", "7")))
    assert not any(map(words.may_stand_in_a_number, ("qu", "ka001", "2026q", "marel")))
