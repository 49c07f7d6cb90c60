"""How the browser is started, and the sizes at which pages are looked at."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Playwright

CHROMIUM = Path("/usr/lib/chromium/chromium-headless-shell")
"""Without tabs, menus and address bar: with them a page costs three times as much of a processor."""

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
DESK = (1280, 900)
PHONE = (390, 844)
TABLET = (820, 1180)
"""At the bench, upright."""


def launch(playwright: Playwright) -> Browser:
    """Debian's own Chromium without its window, with nothing of its own to say to the network."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
