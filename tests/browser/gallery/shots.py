"""Photographs pages at three widths and on paper, and measures what a stranger would trip over."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, ConsoleMessage, Page

from tests.browser.chromium import DESK, PHONE, TABLET
from tests.browser.gallery.walk import Seen
from tests.browser.steps import looked_at_by_axe

ZOOMED = (DESK[0] // 2, DESK[1] // 2)
"""What is left of a desk's window at 200 %."""
PAPER = (794, 1123)
"""A4 upright at 96 dots an inch."""
LIES_ACROSS = 'getComputedStyle(document.body).page === "wide"'
"""Whether the page asks for paper that lies across."""
WIDTHS = {"desk": DESK, "tablet": TABLET, "phone": PHONE}
QUALITY = 72

ON_PAPER = """[...document.querySelectorAll("button, nav, .press, .skip, [role=search]")]
    .filter(e => e.checkVisibility() && e.getBoundingClientRect().height > 1 && !e.closest("[hidden]"))
    .map(e => e.outerHTML.slice(0, 70).replaceAll("\\n", " "))"""
MOVES = """[...document.querySelectorAll("body *")].filter(e => {
    const style = getComputedStyle(e);
    return style.animationName !== "none" || style.transitionDuration.split(", ").some(each => each !== "0s");
}).map(e => e.outerHTML.slice(0, 70))"""
BROKEN_WORD = """[...document.querySelectorAll(".side h1, .side h2")].filter(e => {
    e.style.overflowWrap = "normal";
    const broken = e.scrollWidth > e.clientWidth + 1;
    e.style.overflowWrap = "";
    return broken;
}).map(e => e.textContent.slice(0, 60))"""
TOO_WIDE = """document.documentElement.scrollWidth <= window.innerWidth ? "" :
    `${document.documentElement.scrollWidth} px: ` + [...document.querySelectorAll("body *")]
    .filter(e => e.getBoundingClientRect().right > window.innerWidth + 1 && !e.closest(".scroll"))
    .slice(-1).map(e => e.outerHTML.slice(0, 90))"""


@dataclass(slots=True)
class Photographed:
    """One page with its pictures, by the name of the size, and its faults in words."""

    seen: Seen
    pictures: dict[str, str] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)


class Photographer:
    """Has one window for all pages, signed in where they are for people of the workshop."""

    def __init__(self, browser: Browser, site: str, folder: Path, cookies: list[dict[str, str]]) -> None:
        self.folder = folder
        context = browser.new_context(base_url=site, reduced_motion="reduce")
        context.add_cookies(cookies)  # type: ignore[arg-type]
        self.page: Page = context.new_page()
        self.errors: list[str] = []
        self.page.on("console", self._console)
        self.page.on("pageerror", lambda error: self.errors.append(f"page error: {error}"))

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.errors.append(f"console error: {message.text}")

    def take(self, seen: Seen) -> Photographed:
        """The page at every width and on paper."""
        done, page = Photographed(seen), self.page
        self.errors.clear()
        page.set_viewport_size({"width": DESK[0], "height": DESK[1]})
        response = page.goto(seen.address, wait_until="load")
        if response is None or response.status != 200:
            done.faults.append(f"answered {response.status if response else 'nothing'}")
            return done
        for size, (width, height) in WIDTHS.items():
            page.set_viewport_size({"width": width, "height": height})
            self._measure(done, size)
            self._picture(done, size)
        page.set_viewport_size({"width": ZOOMED[0], "height": ZOOMED[1]})
        self._too_wide(done, "at 200 %")
        done.faults += [f"moves where movement is not wanted: {one}" for one in page.evaluate(MOVES)[:3]]
        with _on_paper(page):
            self._too_wide(done, "on paper")
            done.faults += [f"on paper: {one}" for one in page.evaluate(ON_PAPER)[:3]]
            self._picture(done, "paper")
        done.faults += self.errors
        return done

    def _measure(self, done: Photographed, size: str) -> None:
        self._too_wide(done, f"at {WIDTHS[size][0]} px")
        done.faults += [
            f"a word is broken at {WIDTHS[size][0]} px: {one}" for one in self.page.evaluate(BROKEN_WORD)
        ]
        if size == "tablet":
            return
        for each in looked_at_by_axe(self.page).response["violations"]:
            where = each["nodes"][0]["html"][:90]
            done.faults.append(f"{each['id']} at {WIDTHS[size][0]} px, {len(each['nodes'])} times: {where}")

    def _too_wide(self, done: Photographed, where: str) -> None:
        if found := self.page.evaluate(TOO_WIDE):
            done.faults.append(f"too wide {where}: {found}")

    def _picture(self, done: Photographed, size: str) -> None:
        name = f"{done.seen.name.replace(':', '-')}-{size}.jpg"
        self.page.screenshot(path=self.folder / name, full_page=True, type="jpeg", quality=QUALITY)
        done.pictures[size] = name


@contextmanager
def _on_paper(page: Page) -> Iterator[None]:
    page.emulate_media(media="print")
    width, height = reversed(PAPER) if page.evaluate(LIES_ACROSS) else PAPER
    page.set_viewport_size({"width": width, "height": height})
    yield
    page.emulate_media(media="screen")
