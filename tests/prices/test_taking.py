"""A list is checked, shown, taken in as a whole and undone as a whole; the second of two people is told."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.test import Client
from django.utils import timezone
from pytest_django import Settings

from catalogue.actions.entries import count_up
from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in, keep_reading, say_yes
from catalogue.actions.price_list.refused import AlreadyTaken, Moved, NoRate, NothingToTake, NotTheLast
from catalogue.actions.price_list.taking import bring_due_into_force, take_list
from catalogue.actions.price_list.terms import set_rate, set_terms
from catalogue.actions.price_list.undoing import undo_list
from catalogue.models import Change, ListedPart, ListedPrice, ListState, Offer, OwnValue, PriceList
from catalogue.queries.rows import version
from quotes.imports.demo.prices import write_demo_prices
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.suggest import suggest
from tests.cast import desk, owner
from tests.prices.cast import (
    HOUSE,
    NOW,
    SPRING,
    TODAY,
    an_offer,
    checked,
    cost_in_the_sums,
    cost_of,
    handed_in,
    listed,
    prices,
    read,
    taken,
)

pytestmark = pytest.mark.django_db
AUTUMN = read(listed("A-1", "11"), listed("A-2", "19", 3), listed("B-9", "5", 4))


def taken_after(given: object = AUTUMN) -> PriceList:
    taken(SPRING)
    return taken(given, "autumn.csv")  # type: ignore[arg-type]


def test_what_was_shown_is_what_stands_afterwards() -> None:
    row = taken_after()
    assert {k: row.counts[k] for k in ("new", "dearer", "cheaper", "gone")} == {
        "new": 1, "dearer": 1, "cheaper": 1, "gone": 1,
    }  # fmt: skip
    assert prices() == {"A-1": 11, "A-2": 19, "B-9": 5}
    assert ListedPart.objects.get(number="A-3").gone


def test_the_history_keeps_what_each_list_said() -> None:
    taken_after()
    said = ListedPrice.objects.filter(number_key="A1").order_by("price_list_id")
    assert list(said.values_list("price_list__name", "own_cost")) == [("spring.csv", 10), ("autumn.csv", 11)]


def test_the_same_list_twice_changes_nothing() -> None:
    taken(SPRING)
    again = checked(SPRING, "again.csv")
    assert again.counts["unchanged"] == 3
    with pytest.raises(NothingToTake):
        take_list(pk=again.pk, given=SPRING, by=None, on=TODAY, now=NOW)


def test_undone_everything_stands_as_before() -> None:
    taken(SPRING)
    before = list(ListedPart.objects.order_by("number").values())
    row = taken(AUTUMN, "autumn.csv")
    undo_list(pk=row.pk, by=owner(), now=NOW)
    after = list(ListedPart.objects.order_by("number").values())
    assert after == before
    undo_list(pk=PriceList.objects.get(name="spring.csv").pk, by=owner(), now=NOW)
    assert prices() == {}


def test_a_list_that_another_rests_on_is_not_undone() -> None:
    taken_after()
    with pytest.raises(NotTheLast, match=r"autumn\.csv"):
        undo_list(pk=PriceList.objects.get(name="spring.csv").pk, by=owner(), now=NOW)


def test_the_second_of_two_people_is_told() -> None:
    row = checked(SPRING)
    take_list(pk=row.pk, given=SPRING, by=owner(), on=TODAY, now=NOW)
    with pytest.raises(AlreadyTaken, match=r"Orla Venn has taken spring\.csv in already, at 09:00"):
        take_list(pk=row.pk, given=SPRING, by=None, on=TODAY, now=NOW)


def test_a_list_that_was_checked_before_another_came_in_is_looked_at_again() -> None:
    taken(SPRING)
    first, second = checked(AUTUMN, "autumn.csv"), checked(read(listed("A-1", "12")), "winter.csv")
    take_list(pk=second.pk, given=read(listed("A-1", "12")), by=owner(), on=TODAY, now=NOW)
    with pytest.raises(Moved, match=r"has taken in winter\.csv since autumn\.csv was checked"):
        take_list(pk=first.pk, given=AUTUMN, by=None, on=TODAY, now=NOW)
    assert prices() == {"A-1": 12}


def test_a_held_price_stays_until_the_owner_says_yes() -> None:
    taken(SPRING)
    dear = read(listed("A-1", "15"), listed("A-2", "21", 3), listed("A-3", "30", 4))
    row = checked(dear, "dear.csv")
    assert list(row.held_prices.values_list("number", "was", "becomes")) == [("A-1", 10, 15)]
    say_yes(pk=row.pk, keys=None, by=owner(), now=NOW)
    take_list(pk=row.pk, given=dear, by=owner(), on=TODAY, now=NOW)
    assert prices()["A-1"] == 15


def test_without_a_yes_the_rest_is_taken_and_a_yes_outlives_another_check() -> None:
    taken(SPRING)
    dear = read(listed("A-1", "15"), listed("A-2", "40", 3), listed("A-3", "31", 4))
    row = checked(dear, "dear.csv")
    say_yes(pk=row.pk, keys=["A1"], by=owner(), now=NOW)
    row = check_list(pk=row.pk, given=dear, on=TODAY, now=NOW)
    take_list(pk=row.pk, given=dear, by=owner(), on=TODAY, now=NOW)
    assert prices() == {"A-1": 15, "A-2": 20, "A-3": 31}


def test_an_offer_of_the_catalogue_follows_and_is_remembered_like_a_change_by_hand() -> None:
    offer = an_offer()
    number, before = offer.part_id, cost_of(offer)
    row = taken(read(listed(number, str(before + 1))), by=owner())
    assert cost_in_the_sums(number) == before + 1
    change = Change.objects.get(kind="parts", entry=number, field="offers")
    assert change.became is not None
    assert (change.by, change.became[0]["cost"]) == (owner(), str(before + 1))
    assert "spring.csv" in OwnValue.objects.get(entry=number).source
    undo_list(pk=row.pk, by=owner(), now=NOW)
    assert cost_in_the_sums(number) == before
    assert not OwnValue.objects.filter(entry=number).exists()


def test_an_offer_that_a_hand_changed_since_is_left_when_a_list_is_undone() -> None:
    offer = an_offer()
    row = taken(read(listed(offer.part_id, str(cost_of(offer) + 1))))
    type(offer).objects.filter(pk__isnull=False, part=offer.part_id).update(cost=cost_of(offer) + 2)
    count_up()
    undo_list(pk=row.pk, by=owner(), now=NOW)
    row.refresh_from_db()
    assert row.found["left"] == [offer.part_id]
    assert cost_in_the_sums(offer.part_id) == cost_of(offer) + 2


def test_a_list_from_a_later_day_waits_for_it() -> None:
    later = date(2027, 3, 1)
    row = check_list(pk=handed_in().pk, given=SPRING, on=later, now=NOW)
    row = take_list(pk=row.pk, given=SPRING, by=owner(), on=TODAY, now=NOW)
    assert (row.state, prices()) == (ListState.DUE, {})
    bring_due_into_force(pk=row.pk, given=SPRING, now=NOW)
    assert prices() == {"A-1": 10, "A-2": 20, "A-3": 30}


def test_another_currency_wants_a_rate_of_the_day() -> None:
    set_terms(supplier=HOUSE, currency="EUR", jump_percent=Decimal(20))
    with pytest.raises(NoRate, match="EUR"):
        checked(SPRING)
    set_rate(currency="EUR", day=TODAY, rate=Decimal("1.10"), by=owner(), now=NOW)
    row = taken(SPRING)
    assert row.rate == Decimal("1.1")
    assert prices() == {"A-1": 11, "A-2": 22, "A-3": 33}


def test_a_third_refused_holds_up_none_of_the_rest_and_makes_nothing_gone() -> None:
    good = [f"A-{number};ring {number};{number},50" for number in range(1, 8)]
    bad = ["B-1;pin;none", "B-2;pin;-3,00", "B-3;pin;3,0,0"]
    head = "Part number;Name;Net price"
    first = "\n".join([head, *good, "B-1;pin;4,00"]).encode()
    second = "\n".join([head, *good, *bad]).encode()
    given = [read_price_list(file, "x.csv", suggest(file, "x.csv").reading) for file in (first, second)]
    taken(given[0])
    row = checked(given[1], "second.csv")
    assert (row.counts["refused"], row.counts["unchanged"], row.counts["lines"]) == (3, 7, 10)


def test_a_chain_of_numbers_leads_the_offer_to_the_last() -> None:
    offer = an_offer()
    cost = cost_of(offer)
    chain = [
        listed(offer.part_id, str(cost), superseded_by="NG-2"),
        listed("NG-2", str(cost), 3, superseded_by="NG-3"),
        listed("NG-3", str(cost + 1), 4),
    ]
    taken(read(*chain))
    follows = Offer.objects.get(part=offer.part_id, supplier=offer.supplier_id)
    assert (follows.number, cost_of(follows)) == ("NG-3", cost + 1)
    later = [*chain[:2], listed("NG-3", str(cost + 2), 4)]
    taken(read(*later), "later.csv")
    assert cost_of(Offer.objects.get(part=offer.part_id, supplier=offer.supplier_id)) == cost + Decimal(2)


def test_a_list_comes_into_force_on_the_first_page_of_its_day(settings: Settings, client: Client) -> None:
    settings.PRICES_BY_THEMSELVES = True
    file = b"Part number;Name;Net price\nA-1;ring;12,50\n"
    row = hand_in(supplier=HOUSE, name="x.csv", content=file, by=owner(), now=NOW)
    reading = suggest(file, "x.csv").reading
    keep_reading(pk=row.pk, reading=reading.model_dump(mode="json"))
    given = read_price_list(file, "x.csv", reading)
    check_list(pk=row.pk, given=given, on=timezone.localdate(), now=NOW)
    take_list(pk=row.pk, given=given, by=owner(), on=timezone.localdate() - timedelta(days=1), now=NOW)
    assert prices() == {}
    client.get("/")
    assert prices() == {"A-1": Decimal("12.5")}


def test_a_demo_has_a_list_in_force_and_one_that_waits_and_costs_what_it_did() -> None:
    desk(), owner()
    before = version()
    write_demo_prices(now=NOW)
    write_demo_prices(now=NOW)
    first, second = PriceList.objects.order_by("pk")
    assert (first.state, second.state) == (ListState.IN_FORCE, ListState.CHECKED)
    assert {k: second.counts[k] for k in ("held", "refused", "superseded")} == {
        "held": 1, "refused": 1, "superseded": 1,
    }  # fmt: skip
    assert version() == before
