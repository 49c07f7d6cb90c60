"""Every page of the address list keeps to WCAG 2.2 AA, as far as axe can see, and fits phone and desk."""

from __future__ import annotations

import logging

import pytest
from django.test import Client
from playwright.sync_api import Page

from quotes.actions.books import drawing, reminders
from tests.books.conftest import plain_files
from tests.browser.chromium import DESK, PHONE
from tests.browser.gallery.furnish import customers_links, examples
from tests.browser.gallery.walk import Seen, Walk, follow, look_at_the_rest
from tests.browser.one_of_each import one_of_each
from tests.browser.steps import looked_at_by_axe
from tests.cast import owner

ELSEWHERE = frozenset({"background-state", "code", "export", "export-state", "works-order", "sample-remove"})
"""What this workshop has none of; the gallery photographs them from the demo, with axe at two widths."""
WIDER_THAN = "document.documentElement.scrollWidth > window.innerWidth"


@pytest.fixture
def workshop(transactional_db: None, monkeypatch: pytest.MonkeyPatch) -> Client:
    monkeypatch.setattr(drawing, "drawn", plain_files)
    monkeypatch.setattr(drawing, "warm_up", lambda: None)
    monkeypatch.setattr(reminders, "drawn_reminder", lambda paper: b"%PDF")
    monkeypatch.setattr(logging.getLogger("django.request"), "disabled", True)
    return one_of_each()


def every_page(client: Client) -> list[Seen]:
    """One example of each; fails where a page was found by no link and has no example."""
    walk, outside, stranger = Walk(), Walk(), Client()
    follow(client, walk, ["/"], each=1)
    follow(stranger, outside, [*customers_links(owner()), "/sign-in/"], each=4)
    unknown = set(look_at_the_rest(stranger, outside, {})) & set(look_at_the_rest(client, walk, examples()))
    assert unknown <= ELSEWHERE, "give the page a link, or an example in the gallery"
    walk.pages |= outside.pages
    return walk.fullest()


def test_every_page_is_sound(workshop: Client, phone_page: Page) -> None:
    phone_page.goto("/robots.txt")
    faults = []
    for seen in every_page(workshop):
        phone_page.set_content(seen.text)
        for each in looked_at_by_axe(phone_page).response["violations"]:
            faults.append(f"{seen.name}: {each['id']}: {each['nodes'][0]['html'][:120]}")
        for size in (PHONE, DESK):
            phone_page.set_viewport_size({"width": size[0], "height": size[1]})
            if phone_page.evaluate(WIDER_THAN):
                faults.append(f"{seen.name}: wider than {size[0]} pixels")
        phone_page.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    assert faults == []
