"""The pages look like one hand made them: they share their head, their tables, and name what is pressed."""

from __future__ import annotations

from tests.browser.gallery.templates import other_heads, other_tables, unnamed

OTHERS = {
    "404.html": "stands alone: nobody may be signed in, and there may be no database",
    "out_of_order.html": "stands alone, for the same reason",
    "sent_late.html": "stands alone: whoever sent it may be signed out by now",
    "site.html": "the frame of every page of the workshop, without a head of its own",
    "quotes/home/first_steps_page.html": "is also a part of today",
    "quotes/worksheet.html": "comes anew with every press, its head with it",
    "quotes/bench/teardown.html": "a bench sheet: no margin, one column for gloves",
    "quotes/bench/record_group.html": "a bench sheet, as the teardown",
    "quotes/invited_gone.html": "tells a stranger nothing of the workshop",
    "quotes/customer_gone.html": "tells a stranger nothing of the workshop",
    "quotes/customer_wait.html": "tells a stranger nothing of the workshop",
    "quotes/customer_receipt.html": "the customer's: a lead heads the body, the margin is a note",
    "quotes/bench/customer_extra.html": "the customer's, as the receipt",
    "quotes/bench/customer_findings.html": "the customer's, as the receipt",
    "quotes/bench/customer_service.html": "the customer's, as the receipt",
}


def test_a_page_with_a_head_of_its_own_has_a_reason() -> None:
    assert set(other_heads()) == set(OTHERS)


def test_every_table_is_drawn_in_a_shared_way_and_says_what_its_heads_head() -> None:
    assert other_tables() == []


def test_everything_to_press_has_a_name() -> None:
    assert unnamed() == []
