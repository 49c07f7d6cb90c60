"""Part prices through the markup schedule, machine work, consumables, and how a line rounds."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.money.price import (
    MissingPriceError,
    consumables,
    labour_rate,
    line_net,
    machine_work_unit_price,
    part_of,
    part_quantity,
    sell_price,
    with_markup,
)
from quotes.calc.shop import MarkupBand
from tests.calc.small import SHOP, catalogue, part, shop

DEAR = Decimal(100_000)
"""A list price that caps nothing."""
cents = st.decimals(min_value=0, max_value=5000, places=2)


@pytest.mark.parametrize(
    ("cost", "price"),
    [
        ("0", "0.00"),
        ("4.00", "8.00"),  # 100 % below 10
        ("10.00", "20.00"),  # 65 % would give 16.50, less than a part at 9.99 sells for
        ("12.00", "20.00"),
        ("13.00", "21.45"),
        ("49.99", "82.48"),
        ("50.01", "82.50"),  # 45 % alone would give 72.51
        ("100.00", "145.00"),
        ("1000.00", "1250.00"),  # 18 % alone would give 1180
        ("2000.00", "2360.00"),
    ],
)
def test_markup_by_cost_with_the_higher_price_at_each_edge(cost: str, price: str) -> None:
    assert sell_price(Decimal(cost), DEAR, SHOP) == Decimal(price)


@given(cents, cents)
def test_a_dearer_cost_never_sells_for_less(one: Decimal, other: Decimal) -> None:
    cheaper, dearer = sorted((one, other))

    assert sell_price(cheaper, DEAR, SHOP) <= sell_price(dearer, DEAR, SHOP)


bands = st.lists(
    st.builds(MarkupBand, st.decimals(0, 1000, places=2), st.decimals(0, 300, places=1)), max_size=6
)


@given(cents, cents, cents, bands)
def test_the_same_holds_for_any_schedule_an_owner_may_type(
    one: Decimal, other: Decimal, list_price: Decimal, schedule: list[MarkupBand]
) -> None:
    cheaper, dearer = sorted((one, other))
    typed = shop(markup_bands=tuple(schedule))

    assert sell_price(cheaper, list_price, typed) <= sell_price(dearer, list_price, typed)


@given(cents, cents, bands)
def test_never_above_list_and_never_below_cost_unless_list_is(
    cost: Decimal, list_price: Decimal, schedule: list[MarkupBand]
) -> None:
    price = sell_price(cost, list_price, shop(markup_bands=tuple(schedule)))

    assert price <= list_price
    assert price >= min(cost, list_price)


def test_an_owner_who_allows_more_than_list_gets_it() -> None:
    assert sell_price(Decimal(8), Decimal(10), SHOP) == Decimal("10.00")
    assert sell_price(Decimal(8), Decimal(10), shop(cap_at_list=False)) == Decimal("16.00")


def test_without_a_schedule_a_part_sells_at_cost() -> None:
    assert with_markup(Decimal("41.25"), ()) == Decimal("41.25")


def test_a_schedule_may_be_typed_in_any_order() -> None:
    assert with_markup(Decimal(100), SHOP.markup_bands[::-1]) == Decimal(145)


def test_a_currency_without_decimals_gets_whole_prices() -> None:
    whole = shop(decimals=0)

    assert sell_price(Decimal("13.00"), DEAR, whole) == Decimal(21)
    assert line_net(Decimal("1.5"), Decimal(21), 0) == Decimal(32)


@pytest.mark.parametrize(
    ("quantity", "unit_price", "net"),
    [
        ("1.25", "110", "137.50"),
        ("0.5", "0.01", "0.01"),  # half a cent goes up
        ("0.5", "0.05", "0.03"),  # and up again: banker's rounding gives 0.02
        ("2.5", "0.01", "0.03"),  # banker's rounding gives 0.02
        ("-2.5", "0.01", "-0.03"),  # away from zero on both sides
    ],
)
def test_a_line_is_quantity_times_price_rounded_half_up(quantity: str, unit_price: str, net: str) -> None:
    assert line_net(Decimal(quantity), Decimal(unit_price), 2) == Decimal(net)


def test_a_price_may_be_for_more_than_one_unit() -> None:
    assert line_net(Decimal(64), Decimal(36109), 0, price_base=Decimal(100)) == Decimal(23110)


def test_machine_work_carries_the_shop_s_markup() -> None:
    assert machine_work_unit_price(Decimal(24), SHOP) == Decimal("27.60")


@pytest.mark.parametrize(
    ("labour", "charged"),
    [("0", "0"), ("110", "12"), ("300", "12.00"), ("1000", "40.00"), ("1500", "60.00"), ("5000", "60")],
)
def test_consumables_are_a_share_of_labour_between_a_least_and_a_most(labour: str, charged: str) -> None:
    assert consumables(Decimal(labour), SHOP) == Decimal(charged)


def test_performance_grade_is_bought_where_it_is_asked_for_and_made() -> None:
    stock, race = part("valve_spring"), part("valve_spring", grade="performance")
    list_of_parts = catalogue(stock, race, part("valve_seal"))

    assert part_of(list_of_parts, "valve_spring") is stock
    assert part_of(list_of_parts, "valve_spring", {"valve_spring"}) is race
    assert part_of(list_of_parts, "valve_seal", {"valve_seal"}).grade == "stock"


def test_a_part_without_a_price_is_refused_by_name() -> None:
    with pytest.raises(MissingPriceError, match="no stock part for 'crankcase' on the price list of 'bench'"):
        part_of(catalogue(), "crankcase")


def test_a_kind_of_work_without_a_rate_is_refused_by_name() -> None:
    with pytest.raises(MissingPriceError, match="no labour rate for 'test'"):
        labour_rate("test", shop(labour_rates={"strip": Decimal(85)}))


@pytest.mark.parametrize(("asked", "bought"), [(None, 16), (1, 1), (16, 16), (20, 16)])
def test_no_more_is_bought_than_a_full_set(asked: int | None, bought: int) -> None:
    assert part_quantity(part("valve_spring", quantity=16), asked) == bought
