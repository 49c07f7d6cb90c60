"""Follows a person's links from page to page, and names those that lead to a page he may not open."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterable

from django.contrib.auth.models import User
from django.test import Client
from django.urls import Resolver404, ResolverMatch, resolve

from quotes.queries.rights import may_open

TOLD = re.compile(r"""(href|action|hx-get|hx-post)="(/[^"#]*)""")


def blind_alleys(user: User, begin: Iterable[str], times: int = 1) -> tuple[list[str], set[str]]:
    """Links that lead to what the person may not open, and the pages that were looked at.

    Each page is looked at so many times, with another object or another question each time.
    """
    client = Client()
    client.force_login(user)
    waiting, seen, wrong = deque(begin), dict[str, int](), list[str]()
    asked: set[str] = set()
    while waiting:
        address = waiting.popleft()
        page = _page(address)
        if page is None or address in asked or seen.get(page.view_name, 0) >= times:
            continue
        asked.add(address)
        answer = client.get(address)
        if not answer.get("Content-Type", "").startswith("text/html"):
            continue
        seen[page.view_name] = seen.get(page.view_name, 0) + 1
        for kind, link in TOLD.findall(answer.content.decode()):
            to = _page(link)
            if to is None:
                continue
            post = kind in ("action", "hx-post")
            if not may_open(user, to.view_name, post=post):
                wrong.append(f"{page.view_name} -> {to.view_name}")
            elif not post:
                waiting.append(link.replace("&amp;", "&"))
    return sorted(set(wrong)), set(seen)


def _page(address: str) -> ResolverMatch | None:
    try:
        return resolve(address.partition("?")[0])
    except Resolver404:
        return None
