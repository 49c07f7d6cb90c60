"""Pages of price lists: the desk checks, the owner says yes, takes in, undoes; rates, terms, one article."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.price_list.handing_in import hand_in, keep_reading
from catalogue.actions.price_list.taking import take_list
from catalogue.calc.price_list.listed import Rejected
from catalogue.models import ExchangeRate, ListedPart, ListState, ListTerms, Part, PriceList
from quotes.views.today.items import for_us
from tests.cast import desk, owner
from tests.prices.cast import HOUSE, NOW, TODAY, an_offer, checked, cost_of, listed, prices, read

pytestmark = pytest.mark.django_db
READING = {
    "head_line": 1,
    "columns": {"number": 0, "name": 1, "cost": 2},
    "separator": ";",
    "decimal_mark": ",",
}
HEADS = "number;name;cost\n"


def today() -> str:
    return timezone.localdate().isoformat()


def as_owner() -> Client:
    client = Client()
    client.force_login(owner())
    return client


def as_desk() -> Client:
    client = Client()
    client.force_login(desk())
    return client


def on_hand(rows: str, name: str = "spring.csv") -> PriceList:
    row = hand_in(supplier=HOUSE, name=name, content=(HEADS + rows).encode(), by=desk(), now=NOW)
    return keep_reading(pk=row.pk, reading=READING)


def sent(client: Client, act: str, row: PriceList, **given: Any) -> str:
    """The page that a press leads to."""
    answer = client.post(reverse(f"price-list-{act}", args=[row.pk]), given, follow=True)
    row.refresh_from_db()
    return answer.content.decode()


def checked_by_desk(rows: str, name: str = "spring.csv") -> PriceList:
    row = on_hand(rows, name)
    sent(as_desk(), "check", row, on=today(), whole="on")
    return row


def seen(page: str) -> str:
    return page.split('name="seen" value="')[1].split('"')[0]


def take(client: Client, row: PriceList) -> str:
    page = client.get(reverse("price-list", args=[row.pk])).content.decode()
    return sent(client, "take", row, seen=seen(page))


def test_the_desk_checks_and_sees_what_would_happen_but_does_not_take_it_in() -> None:
    row = checked_by_desk("A-1;Ring set;12,50\nA-2;Piston;nothing\n")
    page = as_desk().get(reverse("price-list", args=[row.pk])).content.decode()
    assert row.state == ListState.CHECKED
    assert "The owner takes it in." in page
    assert as_desk().post(reverse("price-list-take", args=[row.pk])).status_code == 403
    assert prices() == {}


def test_where_much_is_refused_the_page_says_in_which_column() -> None:
    rejected = tuple(Rejected(line, "Net price", "ask", "is no price", "a price") for line in range(5, 17))
    row = checked(read(listed("A-1"), rejected=rejected))
    page = as_desk().get(reverse("price-list", args=[row.pk])).content.decode()
    assert "Refused: 12 of 13 lines." in page
    assert "Net price <b>12</b>" in " ".join(page.split())
    assert "All 12" in page


def test_the_owner_takes_it_in_and_undoes_it() -> None:
    row = checked_by_desk("A-1;Ring set;12,50\n")
    page = take(as_owner(), row)
    assert "Taken in" in page
    assert prices() == {"A-1": Decimal("12.5")}
    assert "What stood before stands again." in sent(as_owner(), "undo", row)
    assert prices() == {}


def test_a_held_price_gets_its_yes_and_loses_it_again() -> None:
    take(as_owner(), checked_by_desk("A-1;Ring set;10\nA-2;Piston;50\n"))
    row = checked_by_desk("A-1;Ring set;90\nA-2;Piston;51\n", "summer.csv")
    assert 'name="key" value="A1"' in as_owner().get(reverse("price-list", args=[row.pk])).content.decode()
    sent(as_owner(), "yes", row, key="A1")
    assert row.counts["yes"] == 1
    sent(as_owner(), "yes", row, back="A1")
    assert row.counts["yes"] == 0
    sent(as_owner(), "yes", row, all="1")
    take(as_owner(), row)
    assert prices() == {"A-1": 90, "A-2": 51}


def test_a_price_that_was_held_when_the_list_came_in_gets_its_yes_afterwards() -> None:
    take(as_owner(), checked_by_desk("A-1;Ring set;10\nA-2;Piston;50\n"))
    row = checked_by_desk("A-1;Ring set;90\nA-2;Piston;51\n", "summer.csv")
    page = take(as_owner(), row)
    assert "1 held price was left as it stood." in page
    assert as_desk().post(reverse("price-list-yes", args=[row.pk]), {"all": "1"}).status_code == 403
    assert prices() == {"A-1": 10, "A-2": 51}
    assert 'name="key"' in page
    assert 'name="key"' not in sent(as_owner(), "yes", row, all="1")
    assert prices() == {"A-1": 90, "A-2": 51}
    article = as_owner().get(reverse("listed-part", args=[ListedPart.objects.get(number="A-1").pk]))
    assert "90.00" in article.content.decode()


def test_what_was_looked_at_before_a_yes_is_not_taken_in() -> None:
    take(as_owner(), checked_by_desk("A-1;Ring set;10\nA-2;Piston;50\n"))
    row = checked_by_desk("A-1;Ring set;90\nA-2;Piston;51\n", "summer.csv")
    looked_at = seen(as_owner().get(reverse("price-list", args=[row.pk])).content.decode())
    sent(as_owner(), "yes", row, all="1")
    assert "since you looked" in sent(as_owner(), "take", row, seen=looked_at)
    assert prices() == {"A-1": 10, "A-2": 50}


def test_the_owners_day_sheet_names_a_list_that_waits_until_nothing_of_it_does() -> None:
    row = checked_by_desk("A-1;Ring set;12,50\n")
    (told,) = [one for one in for_us(TODAY, {}, owner=True).items if one.page == "price-list"]
    assert (told.key, told.what) == (row.pk, "Take in or throw away spring.csv: 1 new, 0 dearer, 0 cheaper")
    take(as_owner(), row)
    same = checked_by_desk("A-1;Ring set;12,50\nA-2;Pin;nothing\n", "again.csv")
    assert not [one for one in for_us(TODAY, {}, owner=True).items if one.key == same.pk]


def test_where_another_list_came_in_it_is_checked_again_and_the_older_one_says_what_rests_on_it() -> None:
    first, row = checked_by_desk("A-1;Ring set;12,50\n"), checked_by_desk("A-1;Ring set;13,00\n", "may.csv")
    take(as_owner(), first)
    page = as_owner().get(reverse("price-list", args=[row.pk])).content.decode()
    assert "<b>Check it again:</b>" in page
    assert 'name="seen"' not in page
    sent(as_desk(), "check", row, on=today(), whole="on")
    take(as_owner(), row)
    older = as_owner().get(reverse("price-list", args=[first.pk])).content.decode()
    assert "may.csv</a> was taken in after it and rests on it" in older


def test_the_second_who_takes_it_in_is_told() -> None:
    row = checked_by_desk("A-1;Ring set;12,50\n")
    looked_at = seen(as_owner().get(reverse("price-list", args=[row.pk])).content.decode())
    take(as_owner(), row)
    page = sent(as_owner(), "take", row, seen=looked_at)
    assert "Taken in" in page
    assert PriceList.objects.in_force().count() == 1


def test_a_list_without_a_rate_says_what_is_missing_and_keeps_the_day_that_was_typed() -> None:
    answer = as_owner().post(
        reverse("price-list-terms", args=[HOUSE]), {"currency": "eur", "jump_percent": "15"}
    )
    assert answer.status_code == 302
    assert ListTerms.objects.get(supplier=HOUSE).currency == "EUR"
    row = on_hand("A-1;Ring set;12,50\n")
    assert "no rate into USD" in sent(as_desk(), "check", row, on=today(), whole="on")
    rate = {"currency": "EUR", "day": today(), "rate": "1.1"}
    as_owner().post(reverse("exchange-rates"), rate)
    sent(as_desk(), "check", row, on=today(), whole="on")
    assert row.state == ListState.CHECKED
    drop = reverse("exchange-rate-drop", args=[ExchangeRate.objects.get().pk])
    assert as_owner().post(drop, follow=True).status_code == 200
    assert not ExchangeRate.objects.exists()


@pytest.mark.parametrize(
    ("address", "given", "fault"),
    [
        ("price-list-terms", {"currency": "Euro", "jump_percent": "15"}, "is not three letters"),
        ("price-list-terms", {"currency": "", "jump_percent": "-1"}, "a number from 0.1 to 1000"),
        ("exchange-rates", {"currency": "EUR", "day": "", "rate": "1"}, "a day is needed"),
        ("exchange-rates", {"currency": "EUR", "day": "2027-01-01", "rate": "0"}, "a number from 0.000001"),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(address: str, given: dict[str, str], fault: str) -> None:
    args = [HOUSE] if address == "price-list-terms" else []
    answer = as_owner().post(reverse(address, args=args), given)
    assert answer.status_code == 422
    assert fault in answer.content.decode()


def test_a_day_far_away_is_refused_and_nothing_typed_is_lost() -> None:
    row = on_hand("A-1;Ring set;12,50\n")
    answer = as_desk().post(reverse("price-list-check", args=[row.pk]), {"on": "2127-02-01"})
    assert answer.status_code == 422
    assert "more than two years away" in answer.content.decode()
    assert 'value="2127-02-01"' in answer.content.decode()


def test_an_article_shows_its_prices_and_fills_in_the_card_of_a_part() -> None:
    offer = an_offer()
    given = read(listed("NG-77", str(cost_of(offer) + 1), pack=4))
    row = checked(given)
    take_list(pk=row.pk, given=given, by=owner(), on=TODAY, now=NOW)
    article = ListedPart.objects.get()
    page = as_owner().get(reverse("listed-part", args=[article.pk])).content.decode()
    assert "spring.csv" in page
    chosen = reverse("listed-part-offer", args=[article.pk])
    card = as_owner().post(chosen, {"part": offer.part_id}, follow=True).content.decode()
    assert 'value="NG-77"' in card
    new = as_owner().post(chosen, {"part": ""}, follow=True).content.decode()
    assert 'value="part NG-77"' in new
    assert Part.objects.get(pk=offer.part_id).offers.get(supplier=HOUSE).number == ""


def test_what_it_moves_is_a_piece_of_the_page_and_a_page_of_its_own() -> None:
    row = checked_by_desk("A-1;Ring set;12,50\n")
    address = reverse("price-list-effect", args=[row.pk])
    assert "<html" in as_desk().get(address).content.decode()
    piece = as_desk().get(address, headers={"HX-Request": "true"}).content.decode()
    assert "<html" not in piece
    assert "no draft is touched by it" in piece


def test_a_file_that_is_thrown_away_stays_known_and_how_it_was_read_does_not() -> None:
    row = on_hand("A-1;Ring set;12,50\n")
    sent(as_desk(), "drop", row)
    page = as_desk().get(reverse("price-list-list")).content.decode()
    assert row.state == ListState.DROPPED
    assert bytes(row.content) == b""
    assert "spring.csv" in page
    assert ListTerms.objects.get().reading == {}
