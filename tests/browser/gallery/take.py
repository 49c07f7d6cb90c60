"""One set of pictures: the copy of the workshop, the walk through it, and what was found wrong."""

from __future__ import annotations

import logging
import shutil
import sqlite3
from pathlib import Path

import django
from django.conf import settings

django.setup()

from django.contrib.auth.models import User  # noqa: E402
from django.core.management import call_command  # noqa: E402
from django.test import Client  # noqa: E402
from django.test.utils import setup_test_environment  # noqa: E402
from playwright.sync_api import Browser, sync_playwright  # noqa: E402

from quotes.actions.people import give_role  # noqa: E402
from tests.browser.chromium import launch  # noqa: E402
from tests.browser.gallery.album import write_album  # noqa: E402
from tests.browser.gallery.furnish import customers_links, examples, furnish  # noqa: E402
from tests.browser.gallery.lengthen import lengthen  # noqa: E402
from tests.browser.gallery.shots import Photographed, Photographer  # noqa: E402
from tests.browser.gallery.walk import Seen, Walk, follow, look_at_the_rest  # noqa: E402
from tests.browser.served import SITE, served  # noqa: E402

EACH = 3
"""Of each kind of page so many are opened, and the fullest is photographed."""
EACH_LINK = 20
"""Of the customers' links more: each leads on to what that customer has to answer."""
FOR_STRANGERS = ("/sign-in/", "/sign-in/forgotten/", "/sign-in/forgotten/sent/")


def take_set(name: str, source: Path, only: frozenset[str]) -> int:
    """Takes one set into out/gallery/<name>; 1 where something was found wrong."""
    folder = Path("out/gallery") / name
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    owner = _workshop(name, source)
    client, stranger = Client(), Client()
    client.force_login(owner)
    unknown, seen = _found(name, client, stranger, owner)
    chosen = [one for one in seen if not only or one.name in only]
    with served(), sync_playwright() as playwright:
        pages = _photographed(launch(playwright), folder, chosen, client)
    return _told(write_album(folder, f"The {name} workshop", pages), pages, unknown)


def _workshop(name: str, source: Path) -> User:
    """The copy that is photographed, with somebody who may open everything."""
    logging.disable(logging.CRITICAL)
    setup_test_environment()
    if name == "empty":
        call_command("migrate", verbosity=0)
        owner = User.objects.create_user("owner", password="an-empty-workshop", first_name="Orla")
        give_role(user=owner, role="owner")
        return owner
    before = sqlite3.connect(source / "workshop.sqlite3")
    with sqlite3.connect(settings.DATA_DIR / "workshop.sqlite3") as copy:
        before.backup(copy)
    call_command("migrate", verbosity=0)
    owner = User.objects.get(username="owner")
    client = Client()
    client.force_login(owner)
    furnish(client, owner)
    if name == "long":
        lengthen()
    return owner


def _found(name: str, client: Client, stranger: Client, owner: User) -> tuple[list[str], list[Seen]]:
    """The names of pages that could not be opened, and one example of each other."""
    walk, outside = Walk(), Walk()
    follow(client, walk, ["/"], each=EACH)
    if name != "empty":
        follow(stranger, outside, customers_links(owner), each=EACH_LINK)
    follow(stranger, outside, FOR_STRANGERS, each=1)
    # What a customer is shown is walked as the customer, whom nobody signed in.
    unknown = set(look_at_the_rest(stranger, outside, {}))
    for each, pages in outside.pages.items():
        walk.pages[each] = pages
    unknown &= set(look_at_the_rest(client, walk, examples()))
    broken = [f"{address}: linked, and answered with {status}" for address, status in walk.broken.items()]
    # An empty workshop has no quote to open.
    told = [f"{one}: no link leads there, and examples() has none" for one in sorted(unknown)]
    return (told if name == "full" else []) + broken, walk.fullest()


def _photographed(browser: Browser, folder: Path, seen: list[Seen], client: Client) -> list[Photographed]:
    cookie = {
        "name": settings.SESSION_COOKIE_NAME,
        "value": client.cookies[settings.SESSION_COOKIE_NAME].value,
    }
    signed_in = Photographer(browser, SITE, folder, [cookie | {"url": SITE}])
    stranger = Photographer(browser, SITE, folder, [])
    pages = []
    for one in seen:
        outside = one.address.startswith(("/q/", "/sign-in/", "/invited/")) and one.name != "codes-set-up"
        pages.append((stranger if outside else signed_in).take(one))
        print(one.name, len(pages[-1].faults) or "", flush=True)
    browser.close()
    return pages


def _told(album: Path, pages: list[Photographed], unknown: list[str]) -> int:
    faults = [f"{one.seen.name}: {fault}" for one in pages for fault in one.faults]
    faults += unknown
    for fault in faults:
        print(fault)
    pictures = sum(len(one.pictures) for one in pages)
    print(f"{len(pages)} pages, {pictures} pictures, {len(faults)} faults: {album}")
    return 1 if faults else 0
