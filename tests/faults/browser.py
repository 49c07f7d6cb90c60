"""A browser without a screen: it keeps its cookies, reads forms, sends them, and follows nothing."""

from __future__ import annotations

from dataclasses import dataclass
from http.client import HTTPException
from http.cookiejar import CookieJar
from typing import Any
from urllib.error import HTTPError
from urllib.parse import parse_qsl, urlencode
from urllib.request import HTTPCookieProcessor, HTTPRedirectHandler, Request, build_opener

from lxml import html  # type: ignore[import-untyped]

PATIENCE = 60
FAULT = 500
PARTED = "a-line-that-stands-in-no-file"


class Unanswered(Exception):
    """No answer, or one that says that the site is out of order: what was sent may be kept or not."""


class Refused(Exception):
    """The page came back instead of an answer: the harness has filled it in wrongly."""


@dataclass(frozen=True, slots=True)
class Form:
    """A form filled in, with the address it goes to."""

    address: str
    fields: dict[str, Any]
    file: tuple[str, str] | None = None
    """Name and text of the file that goes along as `file`."""

    @property
    def body(self) -> tuple[str, bytes]:
        """What kind of body it is sent in, and that."""
        sent = urlencode(self.fields, doseq=True)
        if self.file is None:
            return "application/x-www-form-urlencoded", sent.encode()
        name, text = self.file
        parts = [f'name="{field}"\r\n\r\n{value}' for field, value in parse_qsl(sent)]
        parts.append(f'name="file"; filename="{name}"\r\n\r\n{text}')
        said = "".join(f"--{PARTED}\r\nContent-Disposition: form-data; {part}\r\n" for part in parts)
        return f"multipart/form-data; boundary={PARTED}", f"{said}--{PARTED}--\r\n".encode()


class _Stay(HTTPRedirectHandler):
    def redirect_request(self, *_: Any, **__: Any) -> None:
        return None


class Browser:
    """One person's browser at one site."""

    def __init__(self, site: str) -> None:
        self.site = site
        self.opener = build_opener(HTTPCookieProcessor(CookieJar()), _Stay)
        self.broken: list[str] = []
        """Addresses that answered with a fault of the program, which no kill explains."""

    def page(self, address: str) -> Any:
        """A page as a tree; what is no page is no answer."""
        status, body, led_to = self._ask(address, None)
        if status != 200:
            raise Unanswered(f"{address}: {status} {led_to}")
        return html.fromstring(body)

    def form(self, address: str, ends: str = "", /, **typed: Any) -> Form:
        """The form of a page whose action ends so, with some fields typed into; `__` stands for `-`."""
        page = self.page(address)
        form = next((one for one in page.forms if _is(one, ends)), None)
        if form is None:
            raise Refused(f"{address} has no form that ends in {ends!r}")
        fields: dict[str, Any] = {}
        for name, value in form.form_values():
            fields.setdefault(name, []).append(value)
        action = form.action or address
        return Form(action, fields | {name.replace("__", "-"): value for name, value in typed.items()})

    def send(self, form: Form) -> str:
        """Where the answer leads."""
        status, body, led_to = self._ask(form.address, form)
        if status in (302, 303):
            return led_to
        if status >= 500:
            raise Unanswered(f"{form.address}: {status} {_heading(body)}")
        said = html.fromstring(body).xpath("//*[contains(@class, 'err')]//text()") if body else ()
        raise Refused(f"{form.address}: {status} {' '.join(' '.join(said).split())} {form.fields}")

    def _ask(self, address: str, form: Form | None) -> tuple[int, bytes, str]:
        headers = {"Origin": self.site, "Referer": f"{self.site}{address}"}
        body = None
        if form is not None:
            headers["Content-Type"], body = form.body
        try:
            with self.opener.open(Request(self.site + address, body, headers), timeout=PATIENCE) as answer:
                return answer.status, answer.read(), ""
        except HTTPError as answer:
            if answer.code == FAULT:
                self.broken.append(address)
            return answer.code, answer.read(), answer.headers.get("Location", "")
        except (OSError, HTTPException) as broken:
            raise Unanswered(str(broken)) from broken


def _heading(body: bytes) -> str:
    """Of the page that says what is out of order."""
    return " ".join(html.fromstring(body).xpath("//h1//text()")) if body else ""


def _is(form: Any, ends: str) -> bool:
    action = form.action or ""
    return form.method == "POST" and "sign-out" not in action and action.endswith(ends)
