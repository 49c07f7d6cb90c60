"""The workshop's rules as the sums are given them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from pytest_django import DjangoAssertNumQueries

from quotes.calc.defaults import LABOUR_RATES, MARKUP_BANDS
from quotes.models import ClassRule, ClosedDay, LabourRate, MarkupBand, TaxCode, TaxComponent, Workshop
from quotes.queries.workshop import currency_decimals, public_holidays, shop_rules
from tests.quotes import cast

ON = date(2026, 11, 25)


def test_before_anything_is_set_the_trades_habits_hold_and_nothing_is_taxed(db: None) -> None:
    shop = shop_rules(ON)

    assert shop.labour_rates == LABOUR_RATES
    assert shop.markup_bands == MARKUP_BANDS
    assert {shop.tax_codes[code].rate_pct for code in shop.taxability.values()} == {0}


def test_every_line_kind_points_to_a_tax_code_that_is_there(workshop: Workshop) -> None:
    Workshop.objects.update(tax_on_labour=None)

    shop = shop_rules(ON)

    assert set(shop.taxability.values()) <= set(shop.tax_codes)
    assert shop.taxability["labour"] == "none"


@pytest.mark.both_databases
def test_a_tax_code_carries_its_components_in_their_order(workshop: Workshop) -> None:
    sales = shop_rules(ON).tax_codes["sales"]

    assert [(layer.name, layer.rate_pct) for layer in sales.components] == [
        ("State", Decimal(6)),
        ("County", Decimal("1.25")),
    ]
    assert sales.rate_pct == Decimal("7.25")


def test_a_kind_of_work_without_its_own_rate_is_at_the_trades(db: None) -> None:
    LabourRate.objects.create(kind="assemble", per_hour=Decimal(140))

    rates = shop_rules(ON).labour_rates

    assert (rates["assemble"], rates["strip"]) == (Decimal(140), LABOUR_RATES["strip"])


@pytest.mark.both_databases
def test_markup_bands_come_in_the_order_of_cost(db: None) -> None:
    for cost, markup in ((100, 20), (0, 50)):
        MarkupBand.objects.create(cost_from=Decimal(cost), markup_pct=Decimal(markup))

    assert [band.cost_from for band in shop_rules(ON).markup_bands] == [0, 100]


def test_holidays_of_the_calendar_are_closed_in_this_year_and_the_two_after(db: None) -> None:
    cast.workshop(calendar_country="DE", calendar_region="BY")

    closed = shop_rules(ON).queue.closed_days

    assert {date(2026, 12, 25), date(2027, 1, 6), date(2028, 11, 1)} <= closed
    assert {day.year for day in closed} == {2026, 2027, 2028}


def test_a_region_has_holidays_that_its_country_has_not() -> None:
    epiphany = date(2027, 1, 6)

    assert epiphany in public_holidays("DE", "BY", (2027,))
    assert epiphany not in public_holidays("DE", "", (2027,))


def test_a_calendar_that_is_not_known_closes_nothing() -> None:
    assert public_holidays("XX", "", (2027,)) == frozenset()


def test_own_closed_days_count_from_their_first_to_their_last(db: None) -> None:
    ClosedDay.objects.create(first=date(2026, 12, 28), last=date(2027, 1, 2))

    closed = shop_rules(ON).queue.closed_days

    assert closed == {date(2026, 12, day) for day in range(28, 32)} | {date(2027, 1, 1), date(2027, 1, 2)}


@pytest.mark.parametrize(("currency", "places"), [("USD", 2), ("EUR", 2), ("JPY", 0)])
def test_sums_have_as_many_decimals_as_the_currency(currency: str, places: int) -> None:
    assert currency_decimals(currency) == places


@pytest.mark.parametrize("count", [1, 20])
def test_one_row_and_twenty_of_everything_cost_the_same_queries(
    workshop: Workshop, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(count):
        code = TaxCode.objects.create(code=f"code-{index}")
        TaxComponent.objects.create(tax_code=code, order=0, name="State", rate_pct=Decimal(5))
        MarkupBand.objects.create(cost_from=Decimal(index), markup_pct=Decimal(10))
        ClassRule.objects.create(code=f"class-{index}", name=f"Class {index}")
        ClosedDay.objects.create(first=date(2027, 1, 1 + index), last=date(2027, 1, 1 + index))
        of = cast.engine(cast.customer(f"Customer {index}"), f"N-{index}")
        cast.accepted(cast.issued(cast.draft(of)))

    with django_assert_num_queries(11):
        shop_rules(ON)
