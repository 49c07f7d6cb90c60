"""The catalogue's pages in a real browser, at a desk and on a phone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from catalogue.models import Component
from tests.browser.steps import sheet_is_sound, sheet_is_sound_at_both, sign_in
from tests.shipped import load_shipped, unload


@pytest.fixture
def loaded(transactional_db: None) -> None:
    load_shipped()


def test_an_empty_sheet_is_sound(transactional_db: None, desk_page: Page) -> None:
    unload()
    sign_in(desk_page, "owner")
    desk_page.goto("/catalogue/parts/")
    expect(desk_page.get_by_text("No parts yet.")).to_be_visible()
    sheet_is_sound_at_both(desk_page)


def test_the_keyboard_is_enough_to_find_a_part_and_change_it(loaded: None, page: Page) -> None:
    sign_in(page, "owner")
    page.goto("/catalogue/components/")
    page.get_by_label("Find", exact=True).focus()
    page.keyboard.type("rod bolts")
    page.keyboard.press("Enter")
    page.get_by_role("link", name="connecting rod bolts").press("Enter")
    page.get_by_role("link", name="Change this component").press("Enter")
    page.get_by_label("Weibull shape").fill("-4")
    page.get_by_role("button", name="Keep this component").press("Enter")

    expect(page.locator("#id_weibull_shape_error")).to_contain_text("must be above 0, not -4")
    expect(page.get_by_role("alert")).to_contain_text("Weibull shape: must be above 0, not -4")
    sheet_is_sound(page)
    page.get_by_label("Weibull shape").fill("4")
    page.get_by_label("Where do the new figures come from?").fill("our own record")
    page.get_by_role("button", name="Keep this component").press("Enter")

    expect(page.get_by_text("Your own. our own record.")).to_be_visible()
    sheet_is_sound(page)
    assert Component.objects.get(code="rod_bolt").weibull_shape == 4
