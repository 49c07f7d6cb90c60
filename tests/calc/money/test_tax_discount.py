"""A discount takes from each rate of tax its share, and the sums of a job keep agreeing."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.money.discount import discount_amount, discount_lines
from quotes.calc.money.lines import labour_line, part_line
from quotes.calc.money.totals import totals, with_discount
from quotes.calc.shop import TaxCode, TaxComponent
from tests.calc.small import SHOP, part

CODES = SHOP.tax_codes
LABOUR = labour_line("assemble", Decimal("9.13"), SHOP)
PARTS = part_line(part("valve_spring", quantity=16), None, SHOP)

nets = st.lists(
    st.tuples(st.sampled_from(["sales", "exempt"]), st.decimals("0.01", 9000, places=2)), min_size=1
)


def test_each_rate_bears_the_discount_in_proportion() -> None:
    lines = [("exempt", Decimal(600)), ("sales", Decimal(300)), ("sales", Decimal(100))]

    assert discount_lines(lines, Decimal(100), CODES, 2) == (
        ("exempt", Decimal(-60)),
        ("sales", Decimal(-40)),
    )


def test_what_rounding_leaves_over_goes_to_the_largest() -> None:
    codes = {**CODES, "goods": TaxCode("goods", "S", (TaxComponent("VAT", Decimal(20)),))}
    equal = [(code, Decimal(100)) for code in ("sales", "goods", "exempt")]
    one_larger = [*equal[:1], ("goods", Decimal("100.01")), *equal[2:]]

    # 3.3332, 3.3336 and 3.3332 all round to 3.33, and leave a cent
    assert [net for _, net in discount_lines(one_larger, Decimal(10), codes, 2)] == [
        Decimal("-3.33"),
        Decimal("-3.34"),
        Decimal("-3.33"),
    ]
    assert [net for _, net in discount_lines(equal, Decimal(10), codes, 2)] == [
        Decimal("-3.34"),
        Decimal("-3.33"),
        Decimal("-3.33"),
    ]


@given(nets, st.decimals(0, 100, places=1))
def test_the_shares_make_the_discount_and_leave_no_rate_below_nothing(
    lines: list[tuple[str, Decimal]], pct: Decimal
) -> None:
    amount = discount_amount(sum((net for _, net in lines), Decimal(0)), pct, 2)

    taken = discount_lines(lines, amount, CODES, 2)

    assert -sum((net for _, net in taken), Decimal(0)) == amount
    for code in ("sales", "exempt"):
        assert sum((net for one, net in (*lines, *taken) if one == code), Decimal(0)) >= 0


@pytest.mark.parametrize("amount", ["-1", "100.01"])
def test_no_more_can_be_taken_off_than_there_is(amount: str) -> None:
    with pytest.raises(ValueError, match=rf"a discount of {amount} can't be taken from 100"):
        discount_lines([("sales", Decimal(100))], Decimal(amount), CODES, 2)


def test_a_discount_is_a_line_of_its_own_with_a_negative_quantity() -> None:
    *_, exempt, sales = with_discount([LABOUR, PARTS], Decimal(10), "club member", SHOP)

    assert exempt.net == Decimal("-100.43")
    assert (sales.quantity, sales.unit_price, sales.net) == (Decimal(-1), Decimal(16), Decimal(-16))
    assert sales.description == "Discount 10 %: club member"
    assert exempt.key == "discount:exempt"


def test_no_discount_is_no_line() -> None:
    assert with_discount([LABOUR], Decimal(0), "", SHOP) == (LABOUR,)


def test_a_job_s_sums_hold_at_all_three_ends_of_the_band() -> None:
    job = totals(with_discount([LABOUR, PARTS], Decimal(10), "", SHOP), SHOP, firm=False)

    assert job.net.typical == Decimal("1047.87")
    assert job.tax.typical == Decimal("9.72")  # 6.75 % of 144.00; labour is exempt
    assert job.net.low + job.tax.low == job.gross.low
    assert job.net.typical + job.tax.typical == job.gross.typical
    assert job.net.high + job.tax.high == job.gross.high
    assert job.net.low < job.net.typical < job.net.high


def test_after_the_strip_down_the_price_is_firm() -> None:
    job = totals([LABOUR, PARTS], SHOP, firm=True)

    assert job.gross.low == job.gross.typical == job.gross.high
