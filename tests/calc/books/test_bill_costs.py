"""Tax on a bill that nobody gives back is part of what its lines cost."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.books.bill_costs import costs_with_tax


@pytest.mark.parametrize(
    ("nets", "tax", "costs"),
    [
        (("100", "50"), "0", ("100", "50")),
        (("100", "50"), "15", ("110", "55")),
        (("10", "10", "10"), "1", ("10.34", "10.33", "10.33")),
        (("-100",), "-6", ("-106",)),
    ],
)
def test_each_line_bears_its_share(nets: tuple[str, ...], tax: str, costs: tuple[str, ...]) -> None:
    found = costs_with_tax([Decimal(net) for net in nets], Decimal(tax), 2)

    assert found == tuple(Decimal(cost) for cost in costs)


@given(
    st.lists(st.decimals(min_value=-9999, max_value=9999, places=2), min_size=1, max_size=9),
    st.decimals(min_value=-999, max_value=999, places=2),
)
def test_nothing_of_the_tax_is_lost(nets: list[Decimal], tax: Decimal) -> None:
    assert sum(costs_with_tax(nets, tax, 2)) == sum(nets) + tax
