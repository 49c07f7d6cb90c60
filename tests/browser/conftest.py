"""A real browser that fails the test on any console error, page error or request off the site."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, Request, expect, sync_playwright
from pytest_django.live_server_helper import LiveServer

from tests.browser.chromium import CHROMIUM, DESK, PHONE, TABLET, launch
from tests.browser.line import Line

# Playwright keeps an event loop in this thread; Django would refuse its database there.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"

PATIENCE_MS = 30_000
"""A busy machine may take seconds for what takes a tenth: the tests wait for it, and never measure by it."""
expect.set_options(timeout=PATIENCE_MS)

OpenPage = Callable[[tuple[int, int]], Page]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks what stands in this folder, so that `-m "not browser"` leaves it out."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The one browser of the run."""
    if not CHROMIUM.exists():
        pytest.fail(f"{CHROMIUM} is missing. Install it with: .ci/system-packages test", pytrace=False)
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield browser
        browser.close()


class Watch:
    """Everything on one page that no page may do."""

    def __init__(self, page: Page, site: str) -> None:
        self.site = site
        self.faults: list[str] = []
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.faults.append(f"page error: {error}"))
        page.on("request", self._request)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.faults.append(f"console error: {message.text} at {message.location.get('url', '')}")

    def _request(self, request: Request) -> None:
        if not request.url.startswith((self.site + "/", "data:", "blob:")):
            self.faults.append(f"request off the site: {request.url}")


@pytest.fixture
def open_page(browser: Browser, live_server: LiveServer) -> Iterator[OpenPage]:
    """Opens a page of a given size in a browser that has never been here, as often as it is called."""
    watches: list[Watch] = []
    contexts = []

    def open_one(size: tuple[int, int] = DESK) -> Page:
        width, height = size
        context = browser.new_context(
            base_url=live_server.url, viewport={"width": width, "height": height}, reduced_motion="reduce"
        )
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        watches.append(Watch(page, live_server.url))
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert [fault for watch in watches for fault in watch.faults] == []


@pytest.fixture
def line(live_server: LiveServer) -> Iterator[Line]:
    """Between the browser and the site, to be cut."""
    between = Line(live_server.url)
    yield between
    between.close()


@pytest.fixture
def cut_off(browser: Browser, line: Line) -> Iterator[Page]:
    """A page on a tablet whose line may be cut: the browser writes errors then, so none are counted."""
    width, height = TABLET
    context = browser.new_context(
        base_url=line.address, viewport={"width": width, "height": height}, has_touch=True
    )
    context.set_default_timeout(PATIENCE_MS)
    yield context.new_page()
    context.close()


@pytest.fixture(params=[DESK, PHONE], ids=["desk", "phone"])
def page(open_page: OpenPage, request: pytest.FixtureRequest) -> Page:
    """A page at the width of a desk, and the same test again at the width of a phone."""
    return open_page(request.param)


@pytest.fixture
def desk_page(open_page: OpenPage) -> Page:
    """A page at the width of a desk only."""
    return open_page(DESK)


@pytest.fixture
def phone_page(open_page: OpenPage) -> Page:
    """A page at the width of a phone only."""
    return open_page(PHONE)
