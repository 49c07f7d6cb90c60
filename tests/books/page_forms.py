"""Filling in a form of a page as a browser does: what stands in its fields is sent, with what is changed."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from lxml import html  # type: ignore[import-untyped]


def form_of(page: Any, ends: str = "") -> dict[str, Any]:
    """The fields of the form whose action ends so, as they would be sent untouched."""
    found = [form for form in html.fromstring(page.content).forms if (form.action or "").endswith(ends)]
    own = [form for form in found if "sign-out" not in (form.action or "") and form.method == "POST"]
    assert own, f"no form with an action that ends in {ends!r}"
    sent: dict[str, Any] = {}
    for name, value in own[0].form_values():
        sent.setdefault(name, []).append(value)
    return sent


def typed(page: Any, ends: str = "", /, **change: Any) -> dict[str, Any]:
    """The same with some fields typed into; None takes one out, as an unticked box. `__` stands for `-`."""
    sent = form_of(page, ends)
    for name, value in change.items():
        sent.pop(name.replace("__", "-"), None)
        if value is not None:
            sent[name.replace("__", "-")] = value
    return sent


def text_of(page: HttpResponse | Any) -> str:
    """What can be read on a page, with single spaces."""
    body = html.fromstring(page.content)
    for cell in body.iter("td", "th", "p", "li"):
        cell.tail = f" {cell.tail or ''}"
    return " ".join(body.text_content().replace("\N{NO-BREAK SPACE}", " ").split())
