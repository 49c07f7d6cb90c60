"""What a part that may be ticked at the yes takes of the shop, with all that it brings."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.compare import compare
from quotes.calc.shop import MarkupBand
from tests.calc.asked import tired_four
from tests.calc.small import shop
from tests.cast import shipped

AT_COST = shop(
    markup_bands=(MarkupBand(Decimal(0), Decimal(0)),), machine_work_markup_pct=Decimal(0), cap_at_list=False
)


def test_where_nothing_is_marked_up_an_extra_is_priced_at_its_cost_and_its_hours() -> None:
    found = compare(tired_four(), shipped("four600"), AT_COST)
    risks = [risk for option in found.options for risk in option.offered.values()]

    assert risks
    for risk in risks:
        assert risk.takes is not None
        cost = risk.takes.parts + risk.takes.machine_work + risk.takes.hours * 110
        assert round(cost, 2) == risk.cost_to_renew > 0


def test_what_is_not_offered_takes_nothing() -> None:
    found = compare(tired_four(), shipped("four600"), AT_COST)

    assert not any(risk.takes for option in found.options for risk in option.left.values())
