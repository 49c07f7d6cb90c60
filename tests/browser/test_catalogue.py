"""The catalogue's pages in a real browser, at a desk and on a phone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from catalogue.models import Component
from tests.browser.steps import sheet_fits_at_both, sheet_is_sound, sheet_is_sound_at_both, sign_in
from tests.shipped import load_shipped, unload

SHEETS = [
    "", "parts/", "parts/?engine_type=four600&sort=-cost&page=2", "components/", "operations/",
    "machine-work/",
    "tiers/", "duties/", "engine-types/", "findings/", "events/", "limits/", "suppliers/", "sources/",
    "facts/",
    "policies/", "parts/?q=zebra", "parts/?grade=gold",
    "parts/FOUR600-PISTON/", "components/con_rod/", "operations/cases_split/", "machine-work/replate/",
    "tiers/full/?type=single450", "duties/drag/", "engine-types/four1000/", "findings/dogs_rounded/",
    "events/over_rev/", "limits/rod_clearance/", "suppliers/main_parts/", "sources/S18/", "facts/f04/",
    "policies/markup_schedule/",
    "parts/FOUR600-PISTON/change/", "components/con_rod/change/", "operations/cases_split/change/",
    "tiers/full/change/", "duties/drag/change/", "engine-types/four600/change/",
    "findings/dogs_rounded/change/",
    "limits/rod_clearance/change/", "suppliers/new/", "parts/new/",
]  # fmt: skip


@pytest.fixture
def loaded(transactional_db: None) -> None:
    load_shipped()


def test_every_kind_of_page_fits(loaded: None, desk_page: Page) -> None:
    sign_in(desk_page, "owner")
    for address in SHEETS:
        desk_page.goto(f"/catalogue/{address}")
        expect(desk_page.get_by_role("heading", level=1)).to_be_visible()
        sheet_fits_at_both(desk_page)


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

    expect(page.get_by_text("must be above 0, not -4")).to_be_visible()
    sheet_is_sound(page)
    page.get_by_label("Weibull shape").fill("4")
    page.get_by_label("Where do the new figures come from?").fill("our own record")
    page.get_by_role("button", name="Keep this component").press("Enter")

    expect(page.get_by_text("Your own. our own record.")).to_be_visible()
    sheet_is_sound(page)
    assert Component.objects.get(code="rod_bolt").weibull_shape == 4
