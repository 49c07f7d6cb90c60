"""A price that a list in force held back gets its yes afterwards: taken in, followed, undone with it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from catalogue.actions.entries import count_up
from catalogue.actions.price_list.refused import AlreadyTaken, Moved
from catalogue.actions.price_list.taking_held import take_held
from catalogue.actions.price_list.undoing import undo_list
from catalogue.models import Change, HeldPrice, ListedPrice, ListState, Offer, OwnValue, PriceList
from tests.cast import owner
from tests.prices.cast import (
    HOUSE,
    NOW,
    SPRING,
    an_offer,
    cost_in_the_sums,
    cost_of,
    listed,
    prices,
    read,
    taken,
)

pytestmark = pytest.mark.django_db
LATER = NOW + timedelta(days=3)
DEAR = read(listed("A-1", "15"), listed("A-2", "21", 3), listed("A-3", "90", 4))


def yes_to(row: PriceList, *keys: str) -> PriceList:
    return take_held(pk=row.pk, given=DEAR, keys=keys or None, by=owner(), now=LATER)


def with_two_held() -> PriceList:
    taken(SPRING)
    return taken(DEAR, "dear.csv")


def test_a_yes_takes_the_price_in_and_no_other() -> None:
    row = yes_to(with_two_held(), "A1")
    assert prices() == {"A-1": 15, "A-2": 21, "A-3": 30}
    assert (row.state, row.counts["held"], row.counts["yes"]) == (ListState.IN_FORCE, 2, 1)
    said = ListedPrice.objects.filter(price_list=row).values_list("number", "own_cost")
    assert dict(said) == {"A-1": 15, "A-2": 21}
    assert HeldPrice.objects.get(number="A-1").yes_at == LATER


def test_the_rest_may_follow_and_nothing_is_taken_in_twice() -> None:
    row = yes_to(with_two_held(), "A1")
    yes_to(row)
    yes_to(row)
    assert prices() == {"A-1": 15, "A-2": 21, "A-3": 90}
    assert ListedPrice.objects.filter(price_list=row).count() == 3


def test_it_is_undone_with_its_list() -> None:
    row = yes_to(with_two_held())
    undo_list(pk=row.pk, by=owner(), now=LATER)
    assert prices() == {"A-1": 10, "A-2": 20, "A-3": 30}
    with pytest.raises(AlreadyTaken):
        yes_to(row, "A1")


def test_where_another_list_came_in_since_it_is_refused() -> None:
    row = with_two_held()
    taken(read(listed("A-1", "11")), "winter.csv")
    with pytest.raises(Moved, match=r"winter\.csv"):
        yes_to(row, "A1")
    assert prices() == {"A-1": 11}


def test_an_offer_follows_from_the_day_of_the_yes_and_goes_back_with_the_list() -> None:
    offer = an_offer()
    number, before = offer.part_id, cost_of(offer)
    given = read(listed(number, str(before * 2)), listed("B-1", "5", 3))
    row = taken(given)
    assert cost_in_the_sums(number) == before
    take_held(pk=row.pk, given=given, keys=None, by=owner(), now=LATER)
    assert cost_in_the_sums(number) == before * 2
    assert Change.objects.get(kind="parts", entry=number, field="offers").by == owner()
    assert "in force from 2027-02-04" in OwnValue.objects.get(entry=number, field="offers").source
    undo_list(pk=row.pk, by=owner(), now=LATER)
    assert cost_in_the_sums(number) == before


def test_an_offer_that_followed_the_list_follows_further_and_goes_back_to_before_it() -> None:
    offer = an_offer()
    number, before = offer.part_id, cost_of(offer)
    taken(read(listed(number, str(before)), listed("NG-9", "10", 3)), "first.csv")
    chain = read(listed(number, str(before + 1), superseded_by="NG-9"), listed("NG-9", "90", 3))
    row = taken(chain, "chain.csv")
    follows = Offer.objects.filter(part=number, supplier=HOUSE)
    assert list(follows.values_list("number", "cost")) == [("NG-9", Decimal(10))]
    take_held(pk=row.pk, given=chain, keys=["NG9"], by=owner(), now=LATER)
    assert list(follows.values_list("number", "cost")) == [("NG-9", Decimal(90))]
    undo_list(pk=row.pk, by=owner(), now=LATER)
    assert (follows.get().number, cost_of(follows.get())) == (offer.number, before)


def test_an_offer_that_a_hand_changed_since_is_not_overwritten_unseen() -> None:
    offer = an_offer()
    given = read(listed(offer.part_id, str(cost_of(offer) * 2)), listed("B-1", "5", 3))
    taken(read(listed(offer.part_id, str(cost_of(offer)))), "first.csv")
    row = taken(given)
    Offer.objects.filter(part=offer.part_id, supplier=HOUSE).update(cost=cost_of(offer) + 1)
    count_up()
    with pytest.raises(Moved, match="hand it in again"):
        take_held(pk=row.pk, given=given, keys=None, by=owner(), now=LATER)
    assert prices() == {offer.part_id: cost_of(offer).normalize(), "B-1": 5}
