"""The band that is said on the phone."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.money.band import SpokenBand, SpokenRule, spoken_band
from quotes.calc.sheet.base_values import Spread

RULE = SpokenRule(under_pct=Decimal(10), over_pct=Decimal(20), round_to=Decimal(100))


def spread(low: str, typical: str, high: str) -> Spread:
    return Spread(low=Decimal(low), typical=Decimal(typical), high=Decimal(high))


def test_a_firm_price_is_still_said_as_a_band() -> None:
    """Ten under and twenty over, to the next hundred, where the owner has set nothing else."""
    band = spoken_band(spread("7756.32", "7756.32", "7756.32"), SpokenRule())
    assert band == SpokenBand(Decimal(6900), Decimal(9400))


def test_a_worked_band_wider_than_the_rule_is_not_narrowed() -> None:
    band = spoken_band(spread("5010", "7000", "11990"), RULE)
    assert band == SpokenBand(Decimal(5000), Decimal(12000))


def test_a_sum_on_the_step_stays_where_it_is() -> None:
    band = spoken_band(spread("900", "1000", "1200"), RULE)
    assert band == SpokenBand(Decimal(900), Decimal(1200))


sums = st.decimals(min_value=0, max_value=100_000, places=2)


@given(st.lists(sums, min_size=3, max_size=3).map(sorted), st.sampled_from(["1", "5", "50", "100", "500"]))
def test_the_spoken_band_holds_the_worked_one_and_ends_on_the_step(three: list[Decimal], step: str) -> None:
    low, typical, high = three
    rule = SpokenRule(round_to=Decimal(step))
    band = spoken_band(Spread(low=low, typical=typical, high=high), rule)
    assert 0 <= band.low <= low <= high <= band.high
    assert band.low % Decimal(step) == 0
    assert band.high % Decimal(step) == 0
