"""What a page offers to send: its forms with their fields as a browser would fill them, and its links."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from urllib.parse import parse_qsl, urljoin, urlsplit

from lxml import html  # type: ignore[import-untyped]

TOKEN = "csrfmiddlewaretoken"
"""Goes along unchanged: forms that have it are kept apart by it."""
Pairs = list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class PageForm:
    """One form: where it goes, how, what it sends untouched, what else its fields allow, which are files."""

    page: str
    action: str
    method: str
    sent: tuple[tuple[str, str], ...]
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    files: tuple[str, ...] = ()

    @property
    def names(self) -> list[str]:
        return sorted(({name for name, _ in self.sent} | set(self.choices) | set(self.files)) - {TOKEN})


@dataclass(frozen=True, slots=True)
class PageRead:
    """Links are paths with their parameters."""

    forms: tuple[PageForm, ...]
    links: tuple[str, ...]


def read_page(address: str, content: bytes) -> PageRead:
    """Forms, parts that a script fetches or sends, and links on the own site."""
    if not content.strip():
        return PageRead((), ())
    tree = html.fromstring(content)
    forms = [_form(address, each) for each in tree.iter("form")]
    forms += [_swap(address, each) for each in tree.xpath("//*[@hx-post or @hx-get]")]
    links = {each.get("href") for each in tree.iter("a")} | {each.get("src") for each in tree.iter("img")}
    links |= {each.action for each in forms if each.method == "GET"}
    own = {_own(address, link) for link in links if link}
    return PageRead(tuple(forms), tuple(sorted(link for link in own if link)))


def _own(address: str, link: str) -> str:
    """The path and parameters of a link to the site itself; else empty."""
    parts = urlsplit(urljoin(f"http://testserver{address}", link))
    if parts.netloc != "testserver" or parts.path.startswith("/static/"):
        return ""
    return parts.path + (f"?{parts.query}" if parts.query else "")


def _form(address: str, form: Any) -> PageForm:
    action = _own(address, form.get("action") or address)
    sent, choices, files = _fields(form)
    return PageForm(address, action, form.method, tuple(sent), choices, tuple(files))


def _swap(address: str, element: Any) -> PageForm:
    """What a script sends for an element: the fields of the form that it stands in."""
    method = "POST" if element.get("hx-post") else "GET"
    action = _own(address, element.get("hx-post") or element.get("hx-get") or address)
    form = next(iter(element.xpath("ancestor-or-self::form")), None)
    sent, choices, files = _fields(form) if form is not None else ([], {}, [])
    if element.get("name"):
        sent.append((element.get("name"), element.get("value") or ""))
    return PageForm(address, action, method, tuple(sent), choices, tuple(files))


def _fields(form: Any) -> tuple[Pairs, dict[str, tuple[str, ...]], list[str]]:
    sent: Pairs = [(name, value) for name, value in form.form_values() if name]
    choices: dict[str, tuple[str, ...]] = {}
    files = []
    for each in [*form.inputs, *form.iter("button")]:
        if not (name := each.get("name")):
            continue
        if each.tag == "select":
            choices[name] = tuple(each.value_options)
        elif each.get("type") == "file":
            files.append(name)
        elif each.get("type") in ("radio", "checkbox") or each.tag == "button":
            choices[name] = (*choices.get(name, ()), each.get("value") or "on")
    return [(name, value) for name, value in sent if name not in files], choices, files


def parameters(link: str) -> Pairs:
    return parse_qsl(urlsplit(link).query, keep_blank_values=True)
