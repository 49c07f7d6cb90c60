"""Every page of the site by name, and whether a visitor is let through to it."""

from __future__ import annotations

import logging
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.test import Client, override_settings
from django.urls import URLPattern, URLResolver, get_resolver

from quotes import urls

THROUGH = 299
"""The answer in the place of every page: whoever gets it was let through."""


class LetThrough:
    """Stands behind all other middleware and answers before the page would."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(self, request: HttpRequest, *view: Any) -> HttpResponse:
        return HttpResponse(status=THROUGH)


@contextmanager
def pages_left_out() -> Iterator[None]:
    """The site without its pages, with all that stands before them; the page that refuses is a bare one."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(logging.getLogger("django.request"), "disabled", True)
        patch.setattr(urls, "handler403", lambda request, exception: HttpResponse(status=403), raising=False)
        with override_settings(MIDDLEWARE=[*settings.MIDDLEWARE, "tests.rights.walked.LetThrough"]):
            yield


def patterns() -> dict[str, str]:
    """Every page by name with an address that leads to it."""
    found: dict[str, str] = {}

    def walk(those: list[URLPattern | URLResolver], path: str, within: str) -> None:
        for one in those:
            if isinstance(one, URLResolver):
                walk(
                    one.url_patterns,
                    path + str(one.pattern),
                    f"{within}{one.namespace}:" if one.namespace else "",
                )
            else:
                found[f"{within}{one.name}"] = _filled(path + str(one.pattern))

    walk(get_resolver().url_patterns, "/", "")
    return found


def _filled(path: str) -> str:
    return re.sub(r"<\w+:\w+>|<\w+>", "parts", re.sub(r"<int:\w+>", "1", path))


def answers(client: Client, addresses: dict[str, str], method: str = "get") -> dict[str, int]:
    """What each page answers to a visitor."""
    return {name: getattr(client, method)(path).status_code for name, path in addresses.items()}
