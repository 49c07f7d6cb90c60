"""The card is filled with the keyboard alone, and the options that follow never take the cursor away."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from quotes.models import Quote
from quotes.queries.sheets import request_of
from tests.browser.steps import sheet_is_sound, sign_in
from tests.quotes import cast
from tests.shipped import load_shipped

WAIT = 30_000
"""Milliseconds; the sums take a third of a second on a machine that has nothing else to do."""


@pytest.fixture
def workshop_at_work(transactional_db: None) -> None:
    """A workshop that is set up, with the catalogue that ships and one engine known."""
    load_shipped()
    cast.workshop()
    cast.engine(cast.customer("Ines Karrow"), "H4-30001")


def focused(page: Page) -> str:
    """The id of what has the cursor, or its words."""
    words: str = page.evaluate("document.activeElement.id || document.activeElement.textContent.trim()")
    return words


def tab_to(page: Page, wanted: str) -> None:
    """Press Tab until the cursor is there."""
    passed: list[str] = []
    for _ in range(45):
        page.keyboard.press("Tab")
        passed.append(focused(page))
        if passed[-1] == wanted:
            return
    pytest.fail(f"Tab never came to {wanted!r}; it came past {passed}")


def test_a_call_is_taken_down_with_the_keyboard_alone(workshop_at_work: None, desk_page: Page) -> None:
    page = desk_page
    sign_in(page, "desk")
    page.goto("/quotes/new/")
    expect(page.locator("#id_name")).to_be_focused()
    page.keyboard.type("Marel Otten")
    tab_to(page, "id_type")
    page.keyboard.type("600")
    page.wait_for_load_state("networkidle")
    tab_to(page, "id_number")
    page.keyboard.type("H4-20417")
    tab_to(page, "id_history-0-amount")
    page.keyboard.type("4,100")
    tab_to(page, "id_history-0-duty")
    page.keyboard.type("Spr")
    tab_to(page, "id_planned-duty")
    page.keyboard.type("End")
    expect(page.locator("#options table")).to_be_visible(timeout=WAIT)
    assert focused(page) == "id_planned-duty"
    tab_to(page, "id_aim")
    page.keyboard.type("18")
    expect(page.get_by_role("rowheader", name="Aim of 18 in 20, 90 %")).to_be_visible(timeout=WAIT)
    assert focused(page) == "id_aim"
    sheet_is_sound(page)
    tab_to(page, "Keep as quote")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile(r"/quotes/\d+/$"), timeout=WAIT)
    request = request_of(Quote.objects.get())
    assert (request.engine.type, request.planned.duty, str(request.target)) == ("four600", "endurance", "0.9")


def test_a_known_engine_is_picked_and_a_stretch_added_with_the_keyboard(
    workshop_at_work: None, desk_page: Page
) -> None:
    page = desk_page
    sign_in(page, "desk")
    page.goto("/quotes/new/")
    expect(page.locator("#id_name")).to_be_focused()
    page.keyboard.type("karr")
    expect(page.get_by_role("radio", name="somebody new")).to_be_visible(timeout=WAIT)
    tab_to(page, "id_pick_none")
    page.keyboard.press("ArrowRight")
    expect(page.get_by_label("Engine number")).to_have_value("H4-30001", timeout=WAIT)
    assert focused(page) == "id_pick_0"
    tab_to(page, "Add a stretch")
    page.keyboard.press("Enter")
    expect(page.locator("#id_history-1-amount")).to_be_focused(timeout=WAIT)
    tab_to(page, "take out")
    page.keyboard.press("Enter")
    expect(page.locator("#history-1")).to_have_count(0)
    assert focused(page) == "id_history-0-amount"


def test_enter_works_the_options_out_and_keeps_nothing(workshop_at_work: None, desk_page: Page) -> None:
    page = desk_page
    sign_in(page, "desk")
    page.goto("/quotes/new/")
    page.get_by_label("Which engine type?").select_option("four600")
    page.get_by_label("What is it for now?").select_option("sprint")
    page.get_by_label("Aim to finish").fill("19")
    page.keyboard.press("Enter")
    expect(page.locator("#options table")).to_be_visible(timeout=WAIT)
    page.wait_for_load_state("networkidle")
    assert page.url.endswith("/quotes/new/")
    assert Quote.objects.count() == 0


def test_a_season_is_filled_in_and_follows_the_meetings_until_a_hand_writes_one(
    workshop_at_work: None, desk_page: Page
) -> None:
    page = desk_page
    sign_in(page, "desk")
    page.goto("/quotes/new/")
    amount, meetings = page.get_by_label("How far this season?"), page.get_by_label("Meetings")
    page.get_by_label("What is it for now?").select_option("sprint")
    expect(amount).to_have_value("1800")
    expect(meetings).to_have_value("9")
    meetings.fill("5")
    expect(amount).to_have_value("1000")
    amount.fill("1234")
    page.get_by_label("What is it for now?").select_option("track_day")
    expect(amount).to_have_value("1234")
    page.wait_for_load_state("networkidle")


def test_a_fault_is_said_at_its_field_while_one_types_and_goes_when_it_is_mended(
    workshop_at_work: None, desk_page: Page
) -> None:
    page = desk_page
    sign_in(page, "desk")
    page.goto("/quotes/new/")
    page.get_by_label("What is it for now?").select_option("sprint")
    amount = page.get_by_label("How far has it gone?")
    amount.fill("-5")
    expect(page.locator("#id_history-0-amount_error")).to_have_text(
        "“-5” is too small: 0 or more.", timeout=WAIT
    )
    expect(amount).to_have_attribute("aria-invalid", "true")
    expect(amount).to_be_focused()
    amount.fill("5")
    expect(page.locator("#id_history-0-amount_error")).to_have_text("", timeout=WAIT)
    expect(amount).not_to_have_attribute("aria-invalid", "true")
    page.wait_for_load_state("networkidle")
