"""A loss that the customer names is weighed with the chance of being stopped, for every way of building."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.compare import compare
from quotes.calc.money.band import SpokenRule
from quotes.documents.questions import questions
from quotes.views.card.options_table import options_table
from tests.calc.asked import tired_four
from tests.calc.small import SHOP
from tests.cast import shipped

FOUND = compare(tired_four(loss=Decimal(3000), tiers=("refresh",)), shipped("four600"), SHOP)


def test_the_loss_is_the_price_and_what_a_stop_costs_as_often_as_it_stops() -> None:
    refresh = FOUND.options[0]
    ways = ((FOUND.leave_it, FOUND.leave_it.gross), (refresh, refresh.planned_gross.typical))
    for way, gross in ways:
        stopped = 1 - way.chance.value
        assert float(way.expected_loss or 0) == pytest.approx(float(gross) + 3000 * stopped, abs=0.01)


def test_it_stands_beside_the_prices_on_the_card_and_on_paper() -> None:
    rows = {row.label: row.cells for row in options_table(FOUND, SpokenRule()).rows}
    told = [cell.text for cell in rows["With the loss, weighed"]]
    paper = next(each for each in questions(FOUND) if each.code == "loss")
    assert [cell.words for cell in paper.cells] == told
    assert all(told)


def test_without_a_loss_nothing_is_said_of_one() -> None:
    found = compare(tired_four(tiers=("refresh",)), shipped("four600"), SHOP)
    assert found.leave_it.expected_loss is None
    assert "With the loss, weighed" not in {row.label for row in options_table(found, SpokenRule()).rows}
