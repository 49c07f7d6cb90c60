"""An empty workshop comes to its first issued quote, led by the first steps, in at most sixty actions."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from quotes.models import Quote
from tests.browser.steps import sheet_is_sound, sign_in
from tests.shipped import unload

MOST = 60
WAIT = 30_000
"""Milliseconds; working out a quote takes a third of a second on a machine that has nothing else to do."""


class Hands:
    """One click, one field filled or one pick is one action."""

    def __init__(self, page: Page) -> None:
        self.page, self.actions = page, 0

    def click(self, what: Locator) -> None:
        self.actions += 1
        what.click()

    def fill(self, label: str, text: str) -> None:
        self.actions += 1
        self.page.get_by_label(label, exact=True).first.fill(text)

    def pick(self, label: str, value: str) -> None:
        self.actions += 1
        self.page.get_by_label(label, exact=True).first.select_option(value)

    def type_into(self, name: str, text: str) -> None:
        """Into a field of a row, whose label stands in every row."""
        self.actions += 1
        self.page.locator(f"[name={name}]").fill(text)

    def link(self, words: str) -> None:
        self.click(self.page.get_by_role("link", name=words).first)

    def press(self, words: str) -> None:
        self.click(self.page.get_by_role("button", name=words).first)


def settings(hands: Hands) -> None:
    """Who the workshop is, and one tax on everything."""
    for label, text in (
        ("Name of the workshop", "Sorrel Yard Engines"),
        ("Telephone", "000 555 0142"),
        ("Address, as it is printed", "4 Sorrel Yard, Anyborough"),
    ):
        hands.fill(label, text)
    for name, text in (("tax-0-code", "sales"), ("tax-0-name_0", "Sales tax"), ("tax-0-rate_0", "6")):
        hands.type_into(name, text)
    for kind in ("labour", "part", "machine_work", "consumables"):
        hands.click(hands.page.locator(f"[name=tax-0-on_{kind}]"))
    hands.press("Keep the settings")
    expect(hands.page.get_by_role("status")).to_contain_text("The settings are kept.")


def first_call(hands: Hands) -> None:
    """As the caller speaks."""
    page = hands.page
    hands.fill("Who is calling?", "Marel Otten")
    hands.pick("Which engine type?", "four600")
    page.wait_for_load_state("networkidle")
    hands.fill("Engine number", "H4-20417")
    hands.fill("How far has it gone?", "4100")
    hands.pick("In what use?", "sprint")
    hands.pick("What is it for now?", "endurance")
    expect(page.locator("#options table")).to_be_visible(timeout=WAIT)
    hands.press("Keep as quote")
    page.wait_for_url(re.compile(r"/quotes/\d+/"), timeout=WAIT)


@pytest.mark.one_database
def test_the_first_day_of_an_empty_workshop(transactional_db: None, desk_page: Page) -> None:
    page, hands = desk_page, Hands(desk_page)
    unload()
    sign_in(page, "owner")
    page.goto("/")
    steps = page.locator("#first-steps")
    expect(steps).to_contain_text("0 of 5 done")
    sheet_is_sound(page)

    hands.link("Give the workshop its name")
    settings(hands)
    hands.link("Today")
    expect(steps).to_contain_text("2 of 5 done")
    hands.press("Load the price list")
    expect(steps).to_contain_text("3 of 5 done")
    hands.link("Take down the first call")
    first_call(hands)
    hands.press("Issue")
    page.wait_for_load_state("networkidle")

    assert Quote.objects.get().number
    page.goto("/")
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    expect(steps).to_have_count(0)
    assert hands.actions <= MOST
