"""Offers of the catalogue follow their supplier's number: cost, lot, number in its place, list price."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.price_list.chain import last_of
from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.offers import OfferChange, offer_changes
from catalogue.calc.price_list.rates import Rate, rate_on
from catalogue.calc.rows.trade import OfferRow, PartRow
from tests.calc.prices.rows import row, stands

HOUSE = "north_gear"
DATED = [
    (date(2027, 1, 1), Decimal("1.08")),
    (date(2027, 2, 1), Decimal("1.10")),
    (date(2027, 3, 1), Decimal("1.12")),
]


def offer(supplier: str = HOUSE, cost: str = "10", **changed: Any) -> OfferRow:
    lead = {"lead_typical_days": 3, "lead_slow_days": 9}
    return OfferRow(**{"supplier": supplier, "cost": Decimal(cost)} | lead | changed)


def part(*offers: OfferRow, number: str = "P-1") -> PartRow:
    return PartRow(
        number=number, engine_type="single450", component="piston", grade="stock", name="piston", unit="each",
        quantity=1, list_price=Decimal(20), range_low=1, range_high=1, offers=offers,
    )  # fmt: skip


def changes(parts: list[PartRow], *listed: Listed) -> tuple[OfferChange, ...]:
    after = stands(*listed)
    return offer_changes(parts, HOUSE, after.get, after)


def test_an_offer_takes_the_cost_of_its_supplier_s_number() -> None:
    (one,) = changes([part(offer(number="NG 77"))], row("ng-77", "12.345"))
    assert (one.offer_was.cost, one.offer_becomes.cost) == (Decimal(10), Decimal("12.35"))


def test_without_a_number_of_the_supplier_s_it_goes_by_the_part_s() -> None:
    (one,) = changes([part(offer(), number="P-1"), part(offer(number="X"), number="P-2")], row("P1", "12"))
    assert one.number == "P-1"


def test_a_unit_that_holds_several_is_divided() -> None:
    (one,) = changes([part(offer(number="S4", holds=4))], row("S4", "50", pack=10, list_price=Decimal(90)))
    assert (one.offer_becomes.cost, one.offer_becomes.pack) == (Decimal("12.50"), 40)
    assert one.becomes.list_price == Decimal("22.50")


def test_a_list_without_lots_leaves_the_offer_s() -> None:
    (one,) = changes([part(offer(number="S4", pack=6))], row("S4", "50"))
    assert one.offer_becomes.pack == 6


def test_the_list_price_follows_the_offer_that_the_sums_take() -> None:
    ours = offer(number="S4", preferred=False)
    listed = row("S4", "11", list_price=Decimal(30))
    (one,) = changes([part(ours, offer("other", preferred=True))], listed)
    assert (one.is_preferred, one.becomes.list_price) == (False, Decimal(20))


def test_a_cost_above_the_list_price_is_named() -> None:
    (one,) = changes([part(offer(number="S4"))], row("S4", "21"))
    assert one.above_list


def test_superseded_numbers_are_followed_to_the_last() -> None:
    chain = [row("A", superseded_by="B"), row("B", superseded_by="C"), row("C", "14")]
    (one,) = changes([part(offer(number="A"))], *chain)
    assert (one.offer_becomes.number, one.offer_becomes.cost) == ("C", Decimal("14.00"))


def test_a_number_in_whose_place_nothing_is_listed_keeps_its_own_price() -> None:
    (one,) = changes([part(offer(number="A"))], row("A", "11", superseded_by="NOT-LISTED"))
    assert (one.offer_becomes.number, one.offer_becomes.cost) == ("A", Decimal("11.00"))


def test_what_is_gone_leaves_the_offer_as_it_is() -> None:
    gone = {key: one._replace(gone=True) for key, one in stands(row("A", "11")).items()}
    assert offer_changes([part(offer(number="A"))], HOUSE, gone.get, gone) == ()


def test_a_list_that_says_nothing_of_it_leaves_what_a_hand_changed() -> None:
    after = stands(row("A", "11"))
    assert offer_changes([part(offer(number="A"))], HOUSE, after.get, ()) == ()


def test_a_circle_ends_where_it_begins() -> None:
    assert last_of("A", {"A": "B", "B": "A"}) == "A"


def test_the_latest_rate_that_was_set_by_the_day_holds() -> None:
    rates = [Rate("EUR", day, value) for day, value in DATED]
    assert rate_on(rates, "EUR", DATED[1][0]) == Rate("EUR", *DATED[1])
    assert rate_on(rates, "EUR", DATED[2][0].replace(year=2020)) is None
    assert rate_on(rates, "GBP", DATED[2][0]) is None
