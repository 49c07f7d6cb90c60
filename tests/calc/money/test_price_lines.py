"""The lines of a quote: their figures, their bands, and what the desk may change by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.ask.request import LineChange, OwnLine
from quotes.calc.money.by_hand import changed, own_line
from quotes.calc.money.lines import consumables_line, labour_line, machine_work_line, part_line
from quotes.calc.money.price import MissingPriceError
from tests.calc.small import SHOP, machine_work, part, shop

SPRINGS = part("valve_spring", quantity=16, cost=Decimal("8.00"), list_price=Decimal("10.00"))


def test_a_labour_line_is_hours_at_the_rate_of_its_kind_with_the_spread_of_hours() -> None:
    line = labour_line("strip", Decimal("1.32"), shop(labour_rates={"strip": Decimal(85)}))

    assert (line.quantity, line.unit, line.unit_price) == (Decimal("1.32"), "h", Decimal(85))
    assert (line.low, line.net, line.high) == (Decimal("84.15"), Decimal("112.20"), Decimal("140.25"))
    assert line.tax_code == "exempt"


def test_a_part_line_is_a_full_set_with_the_price_list_s_range() -> None:
    line = part_line(SPRINGS, None, SHOP)

    assert (line.quantity, line.unit_price, line.net) == (Decimal(16), Decimal(10), Decimal(160))
    assert (line.low, line.high) == (Decimal(120), Decimal(240))
    assert (line.cost, line.list_price, line.component) == (Decimal(128), Decimal(10), "valve_spring")


def test_a_part_line_of_some_pieces_costs_those_pieces() -> None:
    assert part_line(SPRINGS, 3, SHOP).net == Decimal(30)


def test_a_machine_work_line_has_the_outside_shop_s_band() -> None:
    line = machine_work_line(machine_work("seat_cut"), 4, SHOP)

    assert (line.low, line.net, line.high) == (Decimal("69.00"), Decimal("110.40"), Decimal("184.00"))
    assert line.cost == Decimal(96)


def test_consumables_follow_the_labour_alone() -> None:
    lines = [labour_line("strip", Decimal(10), SHOP), part_line(SPRINGS, None, SHOP)]

    line = consumables_line(lines, SHOP)

    assert line is not None
    assert (line.low, line.net, line.high) == (Decimal(33), Decimal(44), Decimal(55))


def test_a_job_without_labour_has_no_line_of_consumables() -> None:
    assert consumables_line([part_line(SPRINGS, None, SHOP)], SHOP) is None


@given(
    st.decimals(0, 900, places=2),
    st.decimals(0, 900, places=2),
    st.decimals("0.3", 1, places=2),
    st.decimals(1, 3, places=2),
)
def test_a_band_always_holds_its_typical_figure(
    cost: Decimal, list_price: Decimal, low: Decimal, high: Decimal
) -> None:
    line = part_line(
        part("any", cost=cost, list_price=list_price, range_low=low, range_high=high), None, SHOP
    )

    assert line.low <= line.net <= line.high


def test_a_line_knows_itself_by_kind_and_code() -> None:
    assert part_line(SPRINGS, None, SHOP).key == "part:valve_spring"


def test_a_priced_line_becomes_a_line_of_the_sheet_with_its_reason() -> None:
    line = part_line(SPRINGS, None, SHOP).line("must", "age_at_end", "Past its life when the season ends.")

    assert (line.key, line.net, line.state) == ("part:valve_spring", Decimal(160), "must")
    assert line.reason == "Past its life when the season ends."


def test_a_line_of_the_desk_s_own_is_firm_and_taxed_as_its_kind() -> None:
    own = OwnLine(
        description="Freight", kind="part", quantity=Decimal(1), unit_price=Decimal(45), note="two boxes"
    )

    line = own_line(own, 1, SHOP)

    assert (line.key, line.tax_code, line.edited) == ("part:own-1", "sales", "two boxes")
    assert line.low == line.net == line.high == Decimal(45)


def test_a_quantity_set_by_hand_moves_the_band_and_the_cost() -> None:
    line = changed(part_line(SPRINGS, None, SHOP), LineChange(quantity=Decimal(8), note="outer only"), SHOP)

    assert (line.low, line.net, line.high) == (Decimal(60), Decimal(80), Decimal(120))
    assert (line.cost, line.edited) == (Decimal(64), "outer only")


def test_a_price_set_by_hand_is_firm() -> None:
    line = changed(part_line(SPRINGS, None, SHOP), LineChange(unit_price=Decimal(9), note="old stock"), SHOP)

    assert (line.low, line.net, line.high) == (Decimal(144), Decimal(144), Decimal(144))
    assert line.cost == Decimal(128)


def test_a_line_set_to_none_costs_nothing() -> None:
    line = changed(part_line(SPRINGS, None, SHOP), LineChange(quantity=Decimal(0), note="brought in"), SHOP)

    assert line.low == line.net == line.high == line.cost == Decimal(0)


def test_a_kind_of_line_without_a_tax_code_is_refused_by_name() -> None:
    with pytest.raises(MissingPriceError, match="no tax code for 'labour' lines"):
        labour_line("strip", Decimal(1), shop(taxability={}))
