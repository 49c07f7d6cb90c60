"""Boxes of the worksheet that are ticked before another button is pressed are not lost with it."""

from __future__ import annotations

import pytest

from quotes.models import Quote
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of
from tests.quotes.card_payload import faults_on, signed_in
from tests.quotes.test_pages_worksheet import address, boxes, change, edits

pytestmark = pytest.mark.usefixtures("catalogue")


@pytest.fixture
def worth_it(quote: Quote) -> str:
    """A component that refresh takes in because it is worth it, and that can't lock the wheel."""
    option = comparison_for(request_of(quote)).option("refresh")
    free = (c for c, why in option.renewed.items() if why.state == "worth it" and not why.rider_safety)
    return next(code for code in free if option.renewed[code].code == "worth_it")


def test_a_box_that_was_unticked_is_left_whatever_button_is_pressed_then(quote: Quote, worth_it: str) -> None:
    shown, ticked = boxes(signed_in().get(address(quote)))
    after = {"shown": shown, "in": [code for code in ticked if code != worth_it]}

    change(quote, do="discount", off__discount_pct="5", off__discount_reason="Second engine", **after)

    assert worth_it in edits(quote).leave
    assert edits(quote).discount_pct == 5


def test_a_box_that_was_unticked_is_left_though_what_is_pressed_then_has_a_fault(
    quote: Quote, worth_it: str
) -> None:
    shown, ticked = boxes(signed_in().get(address(quote)))
    after = {"shown": shown, "in": [code for code in ticked if code != worth_it]}

    page = change(quote, do="own-line", **after)

    assert faults_on(page)
    assert worth_it in edits(quote).leave
    assert worth_it not in boxes(page)[1]
