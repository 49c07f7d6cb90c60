"""Sends one input to the site and says what was wrong with the answer."""

from __future__ import annotations

import signal
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import FrameType
from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.contrib.messages import get_messages
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import DatabaseError
from django.test import Client

from tests.fuzz.watch import Watch

FORM = "application/x-www-form-urlencoded"
SAFE = ("GET", "HEAD", "OPTIONS", "TRACE")
TOO_LONG_S = 60
"""No input may keep a worker so long, on however busy a machine."""
SENT_SHOWN = 1200
PARTLY = {
    "quote": "a sheet is sent whole: what is sound of it is kept, what is not stays typed",
    "job-photos": "a picture that can't be read stops no other",
}
"""Addresses whose page shows a fault and yet keeps something, by name, with the reason."""


class TookTooLong(Exception):
    """An input that kept its worker."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One input."""

    kind: str
    name: str
    """The address it is for, by its name."""
    session: str
    method: str
    path: str
    sent: tuple[tuple[str, str], ...] = ()
    files: tuple[tuple[str, str, bytes, str], ...] = ()
    """Field, name, content, type."""
    body: bytes | None = None
    content_type: str = FORM
    headers: tuple[tuple[str, str], ...] = ()

    def __str__(self) -> str:
        files = [(name, called, len(content), content[:60]) for name, called, content, _ in self.files]
        told = f"{self.method} {self.path[:300]} {list(self.sent)!r} {files} {(self.body or b'')[:400]!r}"
        return told[:SENT_SHOWN]


@dataclass(slots=True)
class Found:
    """What came of all inputs so far."""

    inputs: Counter[str] = field(default_factory=Counter)
    answers: Counter[tuple[str, int]] = field(default_factory=Counter)
    errors: dict[str, str] = field(default_factory=dict)
    half_writes: dict[str, str] = field(default_factory=dict)
    kept_in_place: Counter[str] = field(default_factory=Counter)
    slowest: list[tuple[float, str]] = field(default_factory=list)

    @property
    def sound(self) -> bool:
        return not self.errors and not self.half_writes

    def took(self, seconds: float, words: str) -> None:
        self.slowest = sorted([*self.slowest, (seconds, words)], reverse=True)[:8]


def ask(asked: Asked, watch: Watch, found: Found, then: Callable[[Any], None] | None = None) -> None:
    """Sends it, judges the answer, goes on from there, and leaves the database as it was."""
    found.inputs[asked.kind] += 1
    contents: dict[str, str] = {}
    response: Any = None
    began = time.process_time()
    try:
        with watch.undone(), in_time():
            response = send(asked)
            if asked.method in SAFE and watch.drew:
                pass
            elif is_refusal(asked, response):
                contents = watch.contents()
            elif response.status_code == 200 and watch.contents():
                found.kept_in_place[asked.name] += 1
            if then is not None:
                then(response)
    except (DatabaseError, TookTooLong) as error:
        where = f"{asked.name}: {_where(error)}"
        found.errors.setdefault(where, f"{asked}\n{traceback.format_exc(limit=-4)}")
    found.took(time.process_time() - began, f"{asked.name} {str(asked)[:160]}")
    if response is None:
        return
    note(asked, response, found)
    if changed := watch.differing(contents):
        found.half_writes.setdefault(f"{asked.name}: {', '.join(changed)}", str(asked))


def note(asked: Asked, response: Any, found: Found) -> None:
    """Counts the answer, and keeps what went wrong within the site."""
    found.answers[asked.kind, response.status_code] += 1
    if response.status_code >= 500:
        found.errors.setdefault(f"{asked.name}: {_where_of(response)}", f"{asked}\n{_told(response)}")


def send(asked: Asked) -> Any:
    """As the person whose session it is; an exception becomes the page that is shown for it."""
    client = Client(raise_request_exception=False, headers=dict(asked.headers))
    if asked.session:
        client.cookies[settings.SESSION_COOKIE_NAME] = asked.session
    path = asked.path
    if asked.method in ("GET", "HEAD") and asked.sent:
        path = f"{path}{'&' if '?' in path else '?'}{_encoded(asked.sent)}"
    if asked.method != "POST":
        return client.generic(asked.method, path, asked.body or b"", asked.content_type)
    if asked.files:
        return client.post(path, _multipart(asked))
    body = asked.body if asked.body is not None else _encoded(asked.sent).encode()
    return client.generic("POST", path, body, asked.content_type)


def _encoded(sent: tuple[tuple[str, str], ...]) -> str:
    return urlencode(sent, errors="surrogatepass")


def _multipart(asked: Asked) -> dict[str, list[Any]]:
    parts: dict[str, list[Any]] = {}
    for name, value in asked.sent:
        parts.setdefault(name.replace('"', "").replace("\n", ""), []).append(value)
    for name, called, content, sort in asked.files:
        parts.setdefault(name, []).append(SimpleUploadedFile(called or "x", content, sort))
    return parts


def is_refusal(asked: Asked, response: Any) -> bool:
    """A page that only shows, an answer that says no, a form shown again with its faults."""
    if asked.method in SAFE or response.status_code >= 400:
        return True
    if (request := getattr(response, "wsgi_request", None)) is not None:
        told = getattr(get_messages(request), "_queued_messages", [])
        if any(each.level >= messages.ERROR for each in told):
            return True
    if response.status_code != 200 or asked.name in PARTLY or response.streaming:
        return False
    return b'aria-invalid="true"' in response.content


@contextmanager
def in_time() -> Iterator[None]:
    """TookTooLong where what is inside goes on and on."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TookTooLong(f"more than {TOO_LONG_S} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(TOO_LONG_S)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def _where(error: BaseException) -> str:
    """The sort of exception and the last line of our own that it passed."""
    own = [
        each
        for each in traceback.extract_tb(error.__traceback__)
        if ("/quotes/" in each.filename or "/catalogue/" in each.filename)
        and "site-packages" not in each.filename
    ]
    place = f"{'/'.join(own[-1].filename.split('/')[-2:])}:{own[-1].lineno}" if own else "outside"
    return f"{type(error).__name__} at {place}"


def _where_of(response: Any) -> str:
    info = getattr(response, "exc_info", None)
    return _where(info[1]) if info else f"status {response.status_code}"


def _told(response: Any) -> str:
    info = getattr(response, "exc_info", None)
    return "".join(traceback.format_exception(*info, limit=-6))[-3000:] if info else ""
