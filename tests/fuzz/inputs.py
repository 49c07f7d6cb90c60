"""Inputs for one address: arguments, parameters, other methods, and its forms with a few fields changed."""

from __future__ import annotations

import json
from collections.abc import Callable
from urllib.parse import quote, urlsplit

from hypothesis import strategies as st

from tests.fuzz.asking import Asked
from tests.fuzz.changed_json import changed_bytes
from tests.fuzz.files import file_contents
from tests.fuzz.pages_read import PageForm, parameters
from tests.fuzz.site import NOBODY, Address, Site
from tests.fuzz.wild import anything, in_address, words

METHODS = ("GET", "HEAD", "OPTIONS", "PUT", "PATCH", "DELETE", "TRACE", "POST", "NONSENSE")
SWAPPED = (("HX-Request", "true"), ("HX-Target", "worked"))
SOUND_ENTRIES = [
    {
        "entries": [
            {
                "kind": "reading",
                "key": "8d0f1e9a-5f11-4c63-9a54-0d6f1f6f3c10",
                "age": 1000,
                "entered": "75.02",
                "unit": "mm",
                "code": "bore_size",
                "place": "cylinder 1",
                "when": "stripped",
                "note": "",
                "instrument": None,
            },
            {
                "kind": "finding",
                "key": "8d0f1e9a-5f11-4c63-9a54-0d6f1f6f3c11",
                "judged": "renew",
                "component": "piston",
                "place": "cylinder 2",
                "words": "scored on the thrust side",
                "until_amount": 500,
                "until_unit": "mi",
            },
            {
                "kind": "withdraw",
                "key": "8d0f1e9a-5f11-4c63-9a54-0d6f1f6f3c12",
                "finding": "8d0f1e9a-5f11-4c63-9a54-0d6f1f6f3c11",
                "because": "looked again",
            },
        ]
    }
]
"""What the tablet sends from a strip-down."""


@st.composite
def of_address(draw: st.DrawFn, site: Site, address: Address) -> Asked:
    """Any method on it, with real or wild arguments and parameters."""
    kind = "addresses, parameters, methods"
    method = draw(st.sampled_from(["GET"] * 5 + list(METHODS)))
    path, who = draw(paths(site, address)), draw(people(site, address))
    sent = draw(pairs(site, address))
    headers = draw(st.sampled_from([(), (), (), SWAPPED]))
    if method in ("GET", "HEAD"):
        return Asked(kind, address.name, who, method, path, sent, headers=headers)
    if method == "POST":
        return Asked(kind, address.name, who, method, path, sent, headers=headers)
    return Asked(kind, address.name, who, method, path, body=b"a=1", headers=headers)


@st.composite
def paths(draw: st.DrawFn, site: Site, address: Address) -> str:
    """A path that exists, or the address with something else for its arguments."""
    real = site.real.get(address.route, [])
    if not address.arguments:
        return "/" + address.route
    if real and draw(st.integers(0, 2)) > 0:
        return draw(st.sampled_from(real))
    others = [each for known in site.real.values() for each in known if each.count("/") > 2]
    if address.route.startswith("q/") and (token := _token(real or others)):
        rest = [quote(draw(in_address), safe="") for _ in address.arguments[1:]]
        return address.path([token, *rest])
    return address.path([quote(draw(in_address), safe="") for _ in address.arguments])


def _token(real: list[str]) -> str:
    return next((path.split("/")[2] for path in real if path.startswith("/q/")), "")


@st.composite
def people(draw: st.DrawFn, site: Site, address: Address) -> str:
    """Mostly who may open it, else anybody."""
    who = site.opens.get(address.route, "owner" if "owner" in site.sessions else NOBODY)
    if not draw(st.integers(0, 4)):
        who = draw(st.sampled_from(sorted(site.sessions)))
    return site.sessions[who]


@st.composite
def pairs(draw: st.DrawFn, site: Site, address: Address) -> tuple[tuple[str, str], ...]:
    """A few parameters: those that are known of the address, those that the code asks for, and others."""
    own = sorted(site.parameters.get(address.route, set()))
    names = st.sampled_from(site.names) | words
    if own:
        names = st.sampled_from(own) | st.sampled_from(own) | names
    return tuple(draw(st.lists(st.tuples(names, anything), max_size=4)))


@st.composite
def of_form(draw: st.DrawFn, site: Site, address: Address) -> Asked:
    """One of the forms that are sent there, with one to four changes; now and then as it stands."""
    who, form = draw(st.sampled_from(site.forms[address.route]))
    sent, files = list(form.sent), [(name, draw(file_contents)) for name in form.files]
    for _ in range(draw(st.integers(0, 4))):
        sent = draw(st.sampled_from(CHANGES))(draw, sent, form)
    session = site.sessions[who]
    if not draw(st.integers(0, 9)):
        session = site.sessions[draw(st.sampled_from(sorted(site.sessions)))]
    path = urlsplit(form.action).path
    if not draw(st.integers(0, 9)):
        path = draw(paths(site, address))
    if form.method == "GET":
        query = tuple(parameters(form.action))
        return Asked("forms", address.name, session, "GET", path, (*query, *sent))
    headers = draw(st.sampled_from([(), (), SWAPPED]))
    told = [(name, *content) for name, content in files]
    kind = "forms with files" if told else "forms"
    return Asked(kind, address.name, session, "POST", path, tuple(sent), tuple(told), headers=headers)


@st.composite
def of_body(draw: st.DrawFn, site: Site, address: Address) -> Asked:
    """Bytes that are no form: JSON as the tablet sends it, another type, a form that is cut off."""
    path, who = draw(paths(site, address)), draw(people(site, address))
    types = st.sampled_from(["application/json", "text/plain", "multipart/form-data; boundary=x", ""])
    body = draw(
        changed_bytes(SOUND_ENTRIES) | st.binary(max_size=60) | st.just(json.dumps(SOUND_ENTRIES[0]).encode())
    )
    return Asked("bodies", address.name, who, "POST", path, body=body, content_type=draw(types))


Change = Callable[[st.DrawFn, list[tuple[str, str]], PageForm], list[tuple[str, str]]]


def _out(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    gone = _name(draw, form)
    return [(name, value) for name, value in sent if name != gone]


def _set(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    to = _name(draw, form)
    return [*((name, value) for name, value in sent if name != to), (to, draw(anything))]


def _chosen(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    """Another of the choices that the page offers."""
    if not (offered := sorted(name for name, values in form.choices.items() if values)):
        return _set(draw, sent, form)
    to = draw(st.sampled_from(offered))
    value = draw(st.sampled_from(form.choices[to]))
    return [*((name, old) for name, old in sent if name != to), (to, value)]


def _twice(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    return [*sent, (_name(draw, form), draw(anything))]


def _swapped(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    """The value of one field in another: a key of something else, a version that has passed."""
    if len(sent) < 2:
        return _set(draw, sent, form)
    one, other = draw(st.sampled_from(sent)), draw(st.sampled_from(sent))
    return [(name, other[1] if name == one[0] else value) for name, value in sent]


def _other_rows(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    """A row of a table under another number, as a page that stands open for long sends it."""
    row = draw(st.sampled_from(["0", "1", "7", "-1", "999999", "x", "9" * 30, "__prefix__"]))
    to = _name(draw, form)
    return [*sent, ("-".join(row if part.isdigit() else part for part in to.split("-")), draw(anything))]


def _unknown(draw: st.DrawFn, sent: list[tuple[str, str]], form: PageForm) -> list[tuple[str, str]]:
    return [*sent, (draw(words), draw(anything))]


CHANGES: tuple[Change, ...] = (
    _out,
    _set,
    _set,
    _set,
    _chosen,
    _chosen,
    _twice,
    _swapped,
    _other_rows,
    _unknown,
)


def _name(draw: st.DrawFn, form: PageForm) -> str:
    return draw(st.sampled_from(form.names)) if form.names else draw(words)
