"""The site as it stands: every address with real keys, every form, and who may open what."""

from __future__ import annotations

import re
from collections import defaultdict, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib.auth.models import User
from django.test import Client
from django.urls import Resolver404, URLPattern, URLResolver, get_resolver, resolve

from tests.fuzz.pages_read import PageForm, parameters, read_page

ARGUMENT = re.compile(r"<(?:(\w+):)?(\w+)>")
ASKED_FOR = re.compile(r'(?:GET|POST|given|data)\.get(?:list)?\("([\w-]+)"')
NOBODY = "nobody"
PAPERS = (".pdf", ".xlsx", ".csv", ".xml", ".jpg", ".md", "/pdf/", "/workbook/", "/csv/")


@dataclass(frozen=True, slots=True)
class Address:
    """One pattern of the url list, with its arguments as they are written in it."""

    name: str
    route: str

    @property
    def arguments(self) -> list[tuple[str, str]]:
        """Converter and name of each."""
        return [(each[1] or "str", each[2]) for each in ARGUMENT.finditer(self.route)]

    def path(self, values: list[str]) -> str:
        """The address with these values, already quoted, in place of its arguments."""
        left = iter(values)
        return "/" + ARGUMENT.sub(lambda _: next(left), self.route)


@dataclass(slots=True)
class Site:
    """What a walk over the site found."""

    sessions: dict[str, str]
    """By who signed in; nobody has none."""
    addresses: list[Address] = field(default_factory=list)
    real: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    """Paths that exist, by the address's route."""
    opens: dict[str, str] = field(default_factory=dict)
    """Who was shown a page of it, by the address's route."""
    forms: dict[str, list[tuple[str, PageForm]]] = field(default_factory=lambda: defaultdict(list))
    """Forms that are sent there, each with who was shown it, by the address's route."""
    parameters: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    names: tuple[str, ...] = ()
    """Every parameter and field that the code asks for by name."""


def addresses() -> list[Address]:
    """Every pattern of the url list."""
    return list(_patterns(get_resolver().url_patterns, ""))


def _patterns(found: list[Any], before: str) -> Iterator[Address]:
    for each in found:
        route = before + str(each.pattern)
        if isinstance(each, URLResolver):
            yield from _patterns(each.url_patterns, route)
        elif isinstance(each, URLPattern):
            yield Address(each.name or route, route)


def route_of(path: str) -> str:
    """The route of a path, or empty where the site has no such address."""
    try:
        return resolve(urlsplit(path).path).route
    except Resolver404:
        return ""


def asked_names() -> tuple[str, ...]:
    """Names that views and forms ask for by themselves, as they stand in the code."""
    root = Path(settings.BASE_DIR)
    files = [*(root / "quotes").rglob("*.py"), *(root / "catalogue").rglob("*.py")]
    return tuple(sorted({name for each in files for name in ASKED_FOR.findall(each.read_text())}))


def sessions(*people: User) -> dict[str, str]:
    """A session for each, by the name that they sign in with."""
    made = {NOBODY: ""}
    for person in people:
        client = Client()
        client.force_login(person)
        made[person.username] = client.cookies[settings.SESSION_COOKIE_NAME].value
    return made


def walk(site: Site, starts: list[str], *, most: int) -> Site:
    """Follows every link from the starts and from each address without arguments, as each person in turn."""
    site.addresses, site.names = addresses(), asked_names()
    plain = ["/" + each.route for each in site.addresses if not each.arguments]
    for who in site.sessions:
        seen: dict[str, set[str]] = defaultdict(set)
        queue = deque([*starts, *plain])
        while queue:
            link = queue.popleft()
            path, route = urlsplit(link).path, route_of(link)
            enough = 1 if path.endswith(PAPERS) else most
            if not route or path in seen[route] or len(seen[route]) >= enough or "sign-out" in path:
                continue
            if site.opens.get(route, who) != who:
                continue
            seen[route].add(path)
            queue.extend(_visit(site, who, link, route))
    return site


def _visit(site: Site, who: str, link: str, route: str) -> list[str]:
    """Opens one page; gives the links on it, also those that its forms go to."""
    client = Client(raise_request_exception=False)
    if session := site.sessions[who]:
        client.cookies[settings.SESSION_COOKIE_NAME] = session
    response: Any = client.get(link)
    site.parameters[route] |= {name for name, _ in parameters(link)}
    path = urlsplit(link).path
    if response.status_code in (302, 405) and path not in site.real[route]:
        site.real[route].append(path)
    if response.status_code in (301, 302):
        return [response["Location"]]
    if response.status_code != 200:
        return []
    if path not in site.real[route]:
        site.real[route].append(path)
    site.opens.setdefault(route, who)
    if "html" not in response.get("Content-Type", ""):
        return []
    read = read_page(link, response.content)
    for form in read.forms:
        _keep_form(site, who, form)
    return list(read.links)


def _keep_form(site: Site, who: str, form: PageForm) -> None:
    route, path = route_of(form.action), urlsplit(form.action).path
    if not route:
        return
    if path not in site.real[route]:
        site.real[route].append(path)
    if form.method == "GET":
        site.parameters[route] |= set(form.names)
    elif all(form != other for _, other in site.forms[route]):
        site.forms[route].append((who, form))
