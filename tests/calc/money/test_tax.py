"""Tax once for each category and rate on the summed net; components, sums and the deposit."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.money import TaxedSum, round_half_up
from quotes.calc.money.tax import UnknownTaxCodeError, deposit, tax_of, taxed_sum
from quotes.calc.shop import DepositRule, TaxCode, TaxComponent
from tests.calc.small import SHOP, shop


def vat(code: str, pct: str) -> TaxCode:
    return TaxCode(code, "S", (TaxComponent("VAT", Decimal(pct)),))


CODES = {
    "standard": vat("standard", "19"),
    "reduced": vat("reduced", "7"),
    "freight": vat("freight", "19"),
    **SHOP.tax_codes,
}
money = st.decimals(-5000, 20000, places=2)
any_lines = st.lists(st.tuples(st.sampled_from(["standard", "reduced", "exempt", "sales"]), money))


def test_lines_of_one_rate_are_summed_before_they_are_taxed() -> None:
    lines = [("standard", Decimal("1.01"))] * 3

    (group,) = tax_of(lines, CODES, 2)

    line_by_line = 3 * round_half_up(Decimal("1.01") * 19 / 100)
    assert (group.taxable, group.tax) == (Decimal("3.03"), Decimal("0.58"))
    assert line_by_line == Decimal("0.57")


def test_two_codes_of_one_category_and_rate_are_one_group() -> None:
    (group,) = tax_of([("standard", Decimal(10)), ("freight", Decimal(5))], CODES, 2)

    assert (group.code, group.taxable, group.tax) == ("standard", Decimal(15), Decimal("2.85"))
    assert group.components == (("VAT", Decimal(19), Decimal("2.85")),)


def test_groups_stand_in_the_order_of_their_first_line() -> None:
    lines = [("reduced", Decimal(1)), ("exempt", Decimal(2)), ("reduced", Decimal(3))]

    assert [group.code for group in tax_of(lines, CODES, 2)] == ["reduced", "exempt"]


def test_an_exempt_line_is_shown_untaxed_with_its_reason() -> None:
    (group,) = tax_of([("exempt", Decimal(100))], CODES, 2)

    assert (group.category, group.tax, group.reason) == ("E", Decimal(0), "Repair labour is not taxed here.")
    assert group.components == ()


def test_state_and_city_tax_are_rounded_once_and_the_rest_goes_to_the_first() -> None:
    (group,) = tax_of([("sales", Decimal("10.10"))], CODES, 2)  # 5.5 % and 1.25 % of 10.10

    assert group.tax == Decimal("0.68")  # of 0.68175; rounded each alone 0.56 and 0.13 make 0.69
    assert group.components == (
        ("state", Decimal("5.5"), Decimal("0.55")),
        ("city", Decimal("1.25"), Decimal("0.13")),
    )


def test_places_that_split_one_rate_otherwise_keep_their_own_components() -> None:
    other = TaxCode(
        "other", "S", (TaxComponent("state", Decimal(4)), TaxComponent("county", Decimal("2.75")))
    )

    (group,) = tax_of([("sales", Decimal(100)), ("other", Decimal(100))], {**CODES, "other": other}, 2)

    assert group.tax == Decimal("13.50")
    assert {(name, rate): tax for name, rate, tax in group.components} == {
        ("state", Decimal("5.5")): Decimal("5.50"),
        ("city", Decimal("1.25")): Decimal("1.25"),
        ("state", Decimal(4)): Decimal("4.00"),
        ("county", Decimal("2.75")): Decimal("2.75"),
    }


def test_a_currency_without_decimals_is_taxed_in_whole_units() -> None:
    (group,) = tax_of([("standard", Decimal(150))], CODES, 0)

    assert group.tax == Decimal(29)


def test_an_unknown_tax_code_is_refused_by_name() -> None:
    with pytest.raises(UnknownTaxCodeError, match=r"no tax code 'luxury'; it has: sales"):
        tax_of([("luxury", Decimal(1))], {"sales": SHOP.tax_codes["sales"]}, 2)


@given(any_lines)
def test_net_and_tax_make_gross_and_components_make_the_tax(lines: list[tuple[str, Decimal]]) -> None:
    groups = tax_of(lines, CODES, 2)
    total = taxed_sum(sum((net for _, net in lines), Decimal(0)), groups)

    assert total.net + total.tax == total.gross
    for group in groups:
        if group.rate_pct:
            assert sum(tax for _, _, tax in group.components) == group.tax
        assert group.tax == round_half_up(group.taxable * group.rate_pct / 100)


@given(any_lines)
def test_a_credit_of_everything_takes_back_exactly_the_tax(lines: list[tuple[str, Decimal]]) -> None:
    charged = tax_of(lines, CODES, 2)
    returned = tax_of([(code, -net) for code, net in lines], CODES, 2)

    assert [group.tax for group in returned] == [-group.tax for group in charged]


def test_groups_that_do_not_hold_the_whole_net_make_no_sum() -> None:
    groups = tax_of([("standard", Decimal(100))], CODES, 2)

    with pytest.raises(ValueError, match="hold 100 of a net of 90"):
        taxed_sum(Decimal(90), groups)


def test_a_sum_that_does_not_add_up_can_not_exist() -> None:
    with pytest.raises(ValueError, match="is not gross"):
        TaxedSum(Decimal(100), Decimal(19), Decimal("119.01"))


def test_the_deposit_is_a_share_of_the_sum_with_tax() -> None:
    assert deposit(Decimal("4221.05"), SHOP) == Decimal("2110.53")
    assert deposit(Decimal("4221.05"), shop(deposit=DepositRule(Decimal(30)))) == Decimal("1266.32")
