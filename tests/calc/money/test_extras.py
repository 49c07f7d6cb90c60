"""What a customer may tick on top of an option, and the sum that the yes then stands for."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.money.extras import accepted_gross, extras_of
from tests.sample_sheet import sample_comparison

MILD = sample_comparison().option("mild")


def test_each_part_that_is_offered_may_be_ticked() -> None:
    assert [extra.component for extra in extras_of(MILD)] == list(MILD.offered)
    assert MILD.offered


def test_an_extra_costs_its_net_price_with_the_highest_rate_on_it() -> None:
    risk = next(iter(MILD.offered.values()))
    rate = max(group.rate_pct for group in MILD.tax_groups)

    extra = extras_of(MILD)[0]

    assert extra.gross - risk.cost_to_renew == round(risk.cost_to_renew * rate / 100, 2)
    assert rate > 0


def test_without_extras_the_yes_stands_for_the_options_sum() -> None:
    assert accepted_gross(MILD, ()) == MILD.gross.typical


def test_an_extra_ticked_twice_counts_once() -> None:
    extra = extras_of(MILD)[0]

    assert accepted_gross(MILD, [extra.component] * 2) == MILD.gross.typical + extra.gross


def test_what_is_not_offered_has_no_price() -> None:
    with pytest.raises(KeyError):
        accepted_gross(MILD, ["con_rod_of_gold"])


def test_a_sum_has_the_decimals_of_its_currency() -> None:
    assert (
        extras_of(MILD, decimals=0)[0].gross % 1
        == MILD.offered[extras_of(MILD)[0].component].cost_to_renew % 1
    )
    assert accepted_gross(MILD, ()) == Decimal(MILD.gross.typical)
