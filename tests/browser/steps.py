"""What browser tests do again and again: sign in, and look whether the sheet before them is sound."""

from __future__ import annotations

from axe_playwright_python.base import AxeResults
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from playwright.sync_api import Page

from quotes.queries.people import Role
from tests.browser.chromium import DESK, PHONE
from tests.cast import PASSWORD, person

LEVEL_AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
"""Web Content Accessibility Guidelines 2.2, level AA, by axe's names of its parts."""
AXE_OPTIONS = {"runOnly": LEVEL_AA, "resultTypes": ["violations"], "reporter": "no-passes"}
"""Nothing is asked of what is in order: telling it would take as long as a small page."""


def sign_in(page: Page, role: Role) -> None:
    """Signs the cast's person with this role in, without the detour over the sign-in page."""
    client = Client()
    client.force_login(person(role))
    page.goto("/robots.txt")
    page.context.add_cookies(
        [
            {
                "name": settings.SESSION_COOKIE_NAME,
                "value": client.cookies[settings.SESSION_COOKIE_NAME].value,
                "url": page.url,
            }
        ]
    )


def sign_in_by_form(page: Page, role: Role) -> None:
    """Signs the cast's person with this role in as a person does, with the keyboard."""
    person(role)
    page.goto("/")
    page.get_by_label("Your sign-in name").fill(role)
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_load_state()


LAID = """(how) => document.querySelectorAll('.running, .stay, .turn')
    .forEach((bar) => { bar.style.position = how; })"""
"""Bars at the foot of the window laid where they stand in the page, or let go again."""


def looked_at_by_axe(page: Page) -> AxeResults:
    """What axe says of the page: what a bar at the foot happens to lie over is reached by scrolling."""
    page.evaluate(LAID, "static")
    results = Axe().run(page, options=AXE_OPTIONS)
    page.evaluate(LAID, "")
    return results


def sheet_is_sound(page: Page) -> None:
    """Fails where the page scrolls sideways or breaks a rule of WCAG 2.2 AA that axe can see."""
    sheet_fits(page)
    results = looked_at_by_axe(page)
    assert results.violations_count == 0, f"{page.url}: {results.generate_report()}"


def sheet_is_sound_at_both(page: Page) -> None:
    """The same for a sheet that is only looked at: it fits a desk, and is sound on a phone."""
    sheet_fits_at_both(page)
    sheet_is_sound(page)


def sheet_fits_at_both(page: Page) -> None:
    """Fails where the page scrolls sideways on a desk or on a phone: axe walks every page elsewhere."""
    for width, height in (DESK, PHONE):
        page.set_viewport_size({"width": width, "height": height})
        sheet_fits(page)


def sheet_fits(page: Page) -> None:
    wide, seen = page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
    assert wide <= seen, f"{page.url} scrolls sideways: {wide} px in a window of {seen} px: {_too_wide(page)}"


def _too_wide(page: Page) -> str:
    """The innermost elements that reach past the right edge, to find the culprit by."""
    found: list[str] = page.evaluate(
        """[...document.querySelectorAll("body *")]
        .filter(e => e.getBoundingClientRect().right > window.innerWidth && !e.children.length)
        .slice(0, 5).map(e => e.outerHTML.slice(0, 120))"""
    )
    return " | ".join(found)
