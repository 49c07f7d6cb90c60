"""Sends every form of every page twice and counts what the second one does: `python -m tests.faults.twice`.

Walks the demo workshop from the page of today as its owner. Fields that stand empty are filled in with
something of their kind; a form that is refused all the same has no effect to be doubled. With --hours-off the
machine's clock is wrong by so much, and the walk shows whether any page minds.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import tempfile
import time
from collections import Counter, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urljoin, urlsplit

from tests.faults.browser import Browser, Form, Refused, Unanswered

PAGES_OF_ONE_KIND = 2
LEFT_OUT = ("sign-", "own-", "new-password", "end-", "sample-", "erase", "code")
"""What would end the walk or empty the workshop, by the beginning of the address's name."""


@dataclass
class Walk:
    """What has been seen of the site, and what came of it."""

    browser: Browser
    seen: set[str] = field(default_factory=set)
    kinds: Counter[str] = field(default_factory=Counter)
    sent: set[tuple[str, str]] = field(default_factory=set)
    count: Counter[str] = field(default_factory=Counter)
    doubled: list[str] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)

    def walk(self) -> None:
        """Page after page, the nearest first."""
        waiting = deque(["/"])
        while waiting:
            address = waiting.popleft()
            if not self._is_new(address):
                continue
            try:
                page = self.browser.page(address)
            except Unanswered as told:
                self._note(told)
                continue
            self.count["pages"] += 1
            waiting.extend(links(page, address))
            for form in forms(page, address):
                self._twice(form)

    def _is_new(self, address: str) -> bool:
        name = name_of(address)
        if address in self.seen or not name or self.kinds[name] >= PAGES_OF_ONE_KIND:
            return False
        self.seen.add(address)
        self.kinds[name] += 1
        return True

    def _twice(self, form: Form) -> None:
        which = (name_of(form.address), str(form.fields.get("do", "")))
        if not which[0] or which[0].startswith(LEFT_OUT) or which in self.sent:
            return
        self.sent.add(which)
        before = rows()
        answer = self._send(form)
        first = rows()
        self.count[f"forms {answer}"] += 1
        self.count["forms with an effect"] += first != before
        self._send(form)
        if (second := rows()) != first:
            grown = {name: second[name] - first[name] for name in second if second[name] != first[name]}
            self.doubled.append(f"{' '.join(which)}: {grown}")

    def _send(self, form: Form) -> str:
        try:
            self.browser.send(form)
        except Refused:
            return "refused"
        except Unanswered as told:
            self._note(told)
            return "unanswered"
        return "led on"

    def _note(self, told: Unanswered) -> None:
        """A page that is out of order, or only one that leads on or is not there."""
        if ": 5" in str(told):
            self.broken.append(str(told))
        else:
            self.count["addresses that lead on"] += 1


def rows() -> dict[str, int]:
    """How many rows each table has; the record of changes is one of them, so no change goes unseen."""
    from django.apps import apps

    models = [one for one in apps.get_models() if one._meta.app_label in ("quotes", "catalogue")]
    return {one._meta.label: one._default_manager.count() for one in models}


def name_of(address: str) -> str:
    """The name of an address of the site; empty for what is none."""
    from django.urls import Resolver404, resolve

    try:
        return resolve(urlsplit(address).path).view_name
    except Resolver404:
        return ""


def links(page: Any, address: str) -> Iterator[str]:
    for href in page.xpath("//a/@href"):
        there = urlsplit(urljoin(address, href))
        if not there.netloc and not there.path.endswith((".pdf", ".xlsx", ".csv", ".xml", ".jpg")):
            yield there.path + (f"?{there.query}" if there.query else "")


def forms(page: Any, address: str) -> Iterator[Form]:
    """Each form that is posted, once for each of its buttons."""
    for form in page.forms:
        if form.method != "POST":
            continue
        fields = filled(form)
        buttons = form.xpath(".//button[not(@hx-post)]") or [None]
        for button in buttons:
            pressed = {button.get("name"): button.get("value", "")} if _has_name(button) else {}
            action = (button.get("formaction") if button is not None else None) or form.action or address
            yield Form(action, fields | pressed)


def _has_name(button: Any) -> bool:
    return button is not None and bool(button.get("name"))


def filled(form: Any) -> dict[str, Any]:
    """What the form holds, with something of its kind in what stands empty."""
    fields: dict[str, Any] = {}
    for name, value in form.form_values():
        fields.setdefault(name, []).append(value)
    for one in form.xpath(".//input[not(@type='hidden')] | .//textarea | .//select"):
        name = one.get("name")
        if name and not any(fields.get(name, ())) and one.get("type") not in ("checkbox", "file"):
            fields[name] = [_something(one)]
    return fields


def _something(one: Any) -> str:
    if one.tag == "select":
        return next((str(value) for value in one.value_options if value), "")
    if one.get("type") == "radio":
        return str(one.get("value", ""))
    if one.get("type") == "date":
        return time.strftime("%Y-%m-%d")
    if one.get("type") == "email":
        return "twice@shop.example"
    figure = one.get("inputmode") in ("decimal", "numeric") or one.get("name", "").startswith("r:")
    return "1" if figure else "Twice"


def main() -> int:
    """1 where a second sending did anything, or a page was out of order."""
    from tests.faults.one_database import point_at

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--hours-off", default="0", help="by how much the machine's clock is wrong")
    os.environ["FAULTS_SHIFT_HOURS"] = parser.parse_args().hours_off

    with tempfile.TemporaryDirectory(prefix="faults-") as folder:
        point_at(Path(folder), None)
        os.environ["LOG_LEVEL"] = "ERROR"
        import django

        django.setup()
        from quotes.management.commands.load_demo import PASSWORD
        from tests.faults.server import Server
        from tests.faults.workshop import set_up

        set_up()
        server = Server("tests.faults.shifted")
        try:
            walk = Walk(Browser(server.address))
            walk.browser.send(walk.browser.form("/sign-in/", username="owner", password=PASSWORD))
            walk.walk()
        finally:
            server.kill_all()
    print(json.dumps({**walk.count, "done twice": walk.doubled, "out of order": walk.broken}, indent=1))
    return int(bool(walk.doubled or walk.broken))


if __name__ == "__main__":
    sys.exit(main())
