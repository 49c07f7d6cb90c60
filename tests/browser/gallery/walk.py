"""Every page of the site, found as a person finds it: by following links, from the first page on."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from django.http import HttpResponseBase
from django.test import Client
from django.urls import Resolver404, URLPattern, URLResolver, get_resolver, resolve

LINK = re.compile(r'href="(/[^"#]*)')
FILE = re.compile(r"(\.(pdf|xlsx|csv|jpg|xml|md|js)|/(pdf|workbook|csv))/?$")
"""How the address of something ends that is handed out as a file."""
PRESSES = frozenset({"customer-accept", "customer-ask", "customer-decline", "language"})
"""What leads back to its page where it is opened instead of pressed."""
BETWEEN = frozenset({"code", "background-state"})
"""What is seen between two pages only: the code after the password, and how far a work is while it runs."""
PLACE = re.compile(r"<(?:(\w+):)?\w+>")
"""A place in an address where something is filled in."""

Examples = Mapping[str, Callable[[], str | None]]
"""Addresses that no link leads to, by the name of the page; None where there is nothing of the kind."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One address that answered with a page."""

    name: str
    address: str
    text: str
    template: str


@dataclass(slots=True)
class Walk:
    """What was found so far, and what is still to be looked at."""

    pages: dict[str, list[Seen]] = field(default_factory=dict)
    broken: dict[str, int] = field(default_factory=dict)
    waiting: dict[str, list[str]] = field(default_factory=dict)
    known: set[str] = field(default_factory=set)

    def fullest(self) -> list[Seen]:
        """Of each page the example that has most to show, in the order of their names."""
        return [max(self.pages[name], key=_length) for name in sorted(self.pages)]

    def times(self, name: str) -> int:
        return len(self.pages.get(name, ()))


def _length(seen: Seen) -> int:
    return len(seen.text)


def addresses() -> dict[str, str]:
    """Every named address of the site as a pattern, by its name."""

    def inside(
        patterns: Iterable[URLPattern | URLResolver], before: str, space: str
    ) -> Iterator[tuple[str, str]]:
        for one in patterns:
            path = before + str(one.pattern)
            if isinstance(one, URLResolver):
                yield from inside(
                    one.url_patterns, path, f"{space}{one.namespace}:" if one.namespace else space
                )
            elif one.name:
                yield f"{space}{one.name}", path

    return dict(inside(get_resolver().url_patterns, "", ""))


def follow(client: Client, walk: Walk, starts: Iterable[str], *, each: int) -> None:
    """Opens what the pages lead to: of each kind of page as many as `each`, what was seen least first."""
    _note(starts, walk)
    while ready := [name for name, left in walk.waiting.items() if left and walk.times(name) < each]:
        name = min(ready, key=walk.times)
        look(client, walk, name, walk.waiting[name].pop(0))


def look(client: Client, walk: Walk, name: str, address: str) -> None:
    """Opens one address, keeps it where it is a page, and notes what it leads to."""
    response = client.get(address)
    if is_page(response):
        text = response.content.decode()
        walk.pages.setdefault(name, []).append(Seen(name, address, text, template_of(response)))
        _note(LINK.findall(text), walk)
    elif response.status_code in (301, 302):
        _note([response["Location"]], walk)
    elif response.status_code != 200:
        walk.broken[address] = response.status_code


def _note(links: Iterable[str], walk: Walk) -> None:
    for link in links:
        address = html.unescape(link)
        path = address.partition("?")[0]
        if path in walk.known or FILE.search(path):
            continue
        walk.known.add(path)
        try:
            name = resolve(path).view_name
        except Resolver404:
            continue
        walk.waiting.setdefault(name, []).append(address)


def is_page(response: HttpResponseBase) -> bool:
    """Whether it is a whole page, and no part of one and no file."""
    if response.status_code != 200 or response.streaming:
        return False
    return b"<html" in getattr(response, "content", b"")[:200]


def template_of(response: HttpResponseBase) -> str:
    """The name of what it was drawn with."""
    drawn = getattr(response, "templates", ())
    return next((one.name for one in drawn if one.name and one.name.endswith(".html")), "")


def look_at_the_rest(client: Client, walk: Walk, examples: Examples) -> list[str]:
    """Opens pages that no link led to, where an address can be told. Gives the names of those it cannot.

    What only takes a press (405), hands out a file or part of a page is no page.
    """
    unknown = []
    for name, path in sorted(addresses().items()):
        if name in walk.pages or name in PRESSES | BETWEEN or FILE.search(path):
            continue
        told = [address] if name in examples and (address := examples[name]()) else list(_alike(walk, path))
        answers = [_press_or_part(client, walk, name, address) for address in told or [_any(path)]]
        if name not in walk.pages and not any(answers):
            unknown.append(name)
    return unknown


def _press_or_part(client: Client, walk: Walk, name: str, address: str) -> bool:
    if name in walk.pages:
        return False
    look(client, walk, name, address)
    return walk.broken.pop(address, 0) == 405 or (name not in walk.pages and _is_part(client, address))


def _is_part(client: Client, address: str) -> bool:
    return client.get(address).status_code == 200


def _alike(walk: Walk, path: str) -> Iterator[str]:
    """The same place under what is known: /bench/7/check/ where /bench/7/ was seen."""
    places = list(PLACE.finditer(path))
    if not places:
        yield f"/{path}"
        return
    stem, rest = path[: places[-1].end()], path[places[-1].end() :]
    pattern = re.compile("/" + PLACE.sub(_anything, stem) + "(?=/)")
    known = {found.group(0) for one in walk.known if (found := pattern.match(one))}
    for start in sorted(known)[:12]:
        yield f"{start}{rest}"


def _anything(place: re.Match[str]) -> str:
    return "[0-9]+" if place[1] == "int" else "[^/]+"


def _any(path: str) -> str:
    """An address with something in each place, for what needs nothing to be there."""
    return "/" + re.sub(r"<\w+:\w+>|<\w+>", "parts", re.sub(r"<int:\w+>", "1", path))
