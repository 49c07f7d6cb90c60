"""Any part's price comes to its cost, its markup and its cap."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.money.lines import part_line
from quotes.calc.origin.unit_price import unit_price
from quotes.calc.scope.case import Case
from quotes.calc.shop import MarkupBand, Shop
from tests.calc.origin.cases import tier
from tests.calc.small import SHOP


@settings(max_examples=40, deadline=None)
@given(
    st.decimals("0.01", "2000", places=2),
    st.decimals("0.01", "2000", places=2),
    st.lists(st.tuples(st.integers(0, 900), st.integers(0, 120)), max_size=4, unique_by=lambda each: each[0]),
    st.booleans(),
)
def test_any_part_s_price_is_what_cost_markup_and_cap_come_to(
    cost: Decimal, listed: Decimal, bands: list[tuple[int, int]], capped: bool
) -> None:
    """A price is the least of the cost with its markup and the list price, whatever the schedule."""
    steps = tuple(MarkupBand(Decimal(start), Decimal(pct)) for start, pct in bands)
    shop = replace(SHOP, markup_bands=steps, cap_at_list=capped)
    job = replace(
        tier("motocross single", "refresh").first,
        case=at_cost(tier("motocross single", "refresh").case, "piston", cost, listed, shop),
    )
    bought = part_line(job.case.part("piston"), None, shop)  # type: ignore[arg-type]
    for each in unit_price(job, bought).walk():
        if (whole := each.added_up()) is not None:
            assert whole == each.exact
    assert unit_price(job, bought).exact == bought.unit_price


def at_cost(case: Case, component: str, cost: Decimal, listed: Decimal, shop: Shop) -> Case:
    """The same engine where one part costs so much."""
    parts = {
        key: replace(part, cost=cost, list_price=listed) if key[0] == component else part
        for key, part in case.catalogue.parts.items()
    }
    return replace(case, shop=shop, catalogue=replace(case.catalogue, parts=parts))
