"""A filled card as a browser posts it, and what a page says at its fields."""

from __future__ import annotations

import re
from html import unescape
from typing import Protocol
from uuid import UUID

from django.test import Client

from quotes.queries.people import Role
from tests.cast import person

KEY = str(UUID(int=1))


class Page(Protocol):
    """An answer with a page in it."""

    @property
    def content(self) -> bytes: ...


def payload(**change: str) -> dict[str, str]:
    """A 600 four with 4,100 sprint miles, for 2,000 endurance miles. `__` in a name stands for `-`."""
    filled = {
        "key": KEY,
        "name": "Marel Otten",
        "telephone": "000 555 0199",
        "email": "marel@otten.example",
        "pick": "",
        "picked": "",
        "type": "four600",
        "number": "H4-20417",
        "delivered": "loose",
        "fitted": "",
        "past": "run",
        "history-0-amount": "4,100",
        "history-0-unit": "mi",
        "history-0-duty": "sprint",
        "history-0-tier": "refresh",
        "history-0-start": "2025-03-01",
        "history-0-end": "2026-10-10",
        "planned-duty": "endurance",
        "planned-amount": "2000",
        "planned-unit": "mi",
        "planned-checks": "each_meeting",
        "aim": "",
        "aim_as": "in_20",
    }
    return filled | {name.replace("__", "-"): value for name, value in change.items()}


def signed_in(role: Role = "desk") -> Client:
    """A browser in which the cast's person with this role is signed in."""
    client = Client()
    client.force_login(person(role))
    return client


def faults_on(answer: Page) -> dict[str, str]:
    """What a whole page says at its fields, by the field's name."""
    found = re.findall(r'<p class="err" id="id_([^"]+)_error">([^<]+)</p>', answer.content.decode())
    return {name: unescape(said) for name, said in found}


def text_of(answer: Page) -> str:
    """The page as one reads it: without marks, with single spaces."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def value_of(answer: Page, name: str) -> str:
    """What stands in an input of the page."""
    found = re.search(rf'<input[^>]*name="{re.escape(name)}"[^>]*>', answer.content.decode())
    assert found, f"there is no input named {name}"
    value = re.search(r'value="([^"]*)"', found[0])
    return unescape(value[1]) if value else ""
