"""Where a chance falls under its floor is what plain halving finds, to the last digit."""

from __future__ import annotations

import math
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.life.horizon import HALVINGS, SEASONS_SEEN, Together, chance_bound
from quotes.calc.life.wear import Wear
from tests.calc.small import SHOP

wears = st.builds(
    Wear,
    age=st.floats(0.0, 9000.0),
    rate=st.floats(0.1, 3.0),
    eta=st.floats(500.0, 30_000.0),
    shape=st.floats(0.5, 6.0),
    evidence=st.floats(0.5, 20.0),
    stopping=st.floats(0.01, 1.0),
    life=st.just(4000.0),
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(wears, min_size=1, max_size=8),
    st.floats(0.05, 0.99),
    st.floats(1.0, 5000.0),
    st.floats(0.0, 0.3),
)
def test_a_bound_is_what_plain_halving_finds(
    fitted: list[Wear], floor: float, use: float, faults: float
) -> None:
    by_code = {str(number): wear for number, wear in enumerate(fitted)}
    shop = replace(SHOP, chance_floor=floor)
    together = Together(by_code)

    def over(use: float) -> bool:
        return shop.shop_factor * together.stopping(use) + faults > -math.log(floor)

    low, high = 0.0, use * SEASONS_SEEN
    if not over(high):
        low = high
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        low, high = (low, middle) if over(middle) else (middle, high)
    assert chance_bound(by_code, shop, use, fault_hazard=faults).use == low
