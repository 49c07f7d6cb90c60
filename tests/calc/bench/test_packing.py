"""Orders put together by supplier, in packs, and the last day to send them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.engine import LeadTime
from quotes.calc.bench.parts.packing import Offered, Want, by_supplier, order_by, sold_as

FRIDAY = date(2026, 12, 18)
PACKED = Offered("race-parts", "Race parts importer", Decimal(10), 4, 1, LeadTime(12, 40))
LOOSE = Offered("main", "Main parts wholesale", Decimal(7), lead=LeadTime(2, 5))


@given(st.integers(1, 60), st.integers(1, 12), st.integers(1, 30))
def test_what_is_bought_is_whole_packs_enough_and_not_one_pack_too_many(
    wanted: int, pack: int, least: int
) -> None:
    bought = sold_as(Decimal(wanted), pack, least)

    assert bought % pack == 0
    assert bought >= max(wanted, least)
    assert bought - pack < max(wanted, least)


def test_nothing_wanted_buys_nothing_whatever_the_least_is() -> None:
    assert sold_as(Decimal(0), 4, 10) == 0


def test_builds_share_a_pack_and_what_is_over_goes_to_stock() -> None:
    wants = [Want(1, "a", "S-SHIM", Decimal(3), PACKED), Want(2, "b", "S-SHIM", Decimal(2), PACKED)]

    (found,) = by_supplier(wants, ())
    (article,) = found.articles

    assert [int(n) for n in (article.wanted, article.spare, article.quantity)] == [5, 3, 8]
    assert [want.build for want in article.wants] == [1, 2]


def test_each_supplier_is_asked_once_and_for_its_own_article_under_a_shared_number() -> None:
    wants = [Want(n, "a", "S-PIN", Decimal(1), offer) for n in (1, 2) for offer in (PACKED, LOOSE)]

    found = by_supplier(wants, ())

    assert [(one.supplier_name, one.articles[0].offer.cost, one.articles[0].spare) for one in found] == [
        ("Main parts wholesale", Decimal(7), Decimal(0)),
        ("Race parts importer", Decimal(10), Decimal(2)),
    ]


def test_the_last_day_to_order_is_the_slow_lead_before_the_need_in_working_days() -> None:
    holiday = date(2026, 12, 16)

    assert order_by(FRIDAY, LeadTime(2, 5), ()) == date(2026, 12, 11)
    assert order_by(FRIDAY, LeadTime(2, 5), {holiday}) == date(2026, 12, 10)
    assert order_by(FRIDAY, LeadTime(1, 1.2), ()) == date(2026, 12, 16)


def test_an_order_goes_by_its_most_urgent_article() -> None:
    days = (FRIDAY, date(2027, 1, 8))
    wants = [Want(build, "a", "S-PIN", Decimal(1), LOOSE, day) for build, day in enumerate(days)]

    assert by_supplier(wants, ())[0].order_by == date(2026, 12, 11)
