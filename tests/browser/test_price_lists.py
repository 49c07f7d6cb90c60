"""A supplier's price list in a real browser: with refused rows and a held price, taken in and undone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.steps import sheet_is_sound, sign_in
from tests.prices.cast import HOUSE, an_offer, cost_in_the_sums, cost_of
from tests.shipped import load_shipped

HEAD = "Part number;Name;Net price\n"


@pytest.fixture
def loaded(transactional_db: None) -> None:
    load_shipped()


def test_a_list_with_refused_rows_and_a_jump_is_taken_in_and_undone(loaded: None, desk_page: Page) -> None:
    page, offer = desk_page, an_offer()
    number, was = offer.part_id, cost_of(offer)
    dear = f"{was * 2:.2f}".replace(".", ",")
    file = f"{HEAD}{number};piston;{dear}\nNG-1;circlip;2,40\nNG-2;pin;on request\n"
    sign_in(page, "owner")
    page.goto("/catalogue/price-lists/")
    page.get_by_role("link", name="Hand in a price list").click()
    page.get_by_label("Supplier").select_option(HOUSE)
    given = {"name": "north-gear.csv", "mimeType": "text/csv", "buffer": file.encode()}
    page.locator("input[type=file]").set_input_files(given)  # type: ignore[arg-type]
    page.get_by_role("button", name="Read the file").click()
    page.get_by_role("button", name="Read the list so").click()
    page.get_by_role("button", name="Check it").click()

    expect(page.get_by_text("1 price is held")).to_be_visible()
    expect(page.get_by_text("“on request”")).to_be_visible()
    sheet_is_sound(page)
    page.get_by_role("button", name=f"Yes {number}").click()
    page.get_by_role("button", name="Take it in").click()
    expect(page.get_by_text("Taken in")).to_be_visible()
    assert cost_in_the_sums(number) == was * 2

    page.get_by_role("button", name="Undo the whole list").click()
    expect(page.get_by_text("What stood before stands again.")).to_be_visible()
    assert cost_in_the_sums(number) == was
