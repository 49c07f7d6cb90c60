"""A form that is sent twice has one effect: a second press, the back button, a network that was too slow.

Every page gives its forms a token that differs from page to page, for Django's check that they come from
here. With what was typed it tells one sending from another; so no form needs a key of its own.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from typing import Any, cast

from django.contrib import messages
from django.contrib.messages import get_messages
from django.contrib.messages.storage.base import BaseStorage
from django.db import transaction
from django.http import HttpRequest, HttpResponseRedirect
from django.http.response import HttpResponseBase
from django.utils import timezone

from catalogue.calc.said import say, to_say
from quotes.actions.sent_forms import begin_form, drop_form, finish_form
from quotes.views.every_request.hand_back import TOKEN

APART = frozenset({"export-new", "export-again"})
"""They show how far they have come, so they can't be one transaction. An entry goes into one batch anyway."""
SAID = to_say("This form had come before: it was kept once, and nothing was done again.")


class SentOnceMiddleware:
    """Runs what a form asks for and the note that it came in one transaction."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        return self.get_response(request)

    def process_view(
        self,
        request: HttpRequest,
        view: Callable[..., HttpResponseBase],
        words: tuple[Any, ...],
        named: dict[str, Any],
    ) -> HttpResponseBase | None:
        if not _counts(request, view):
            return None
        key = key_of(request)
        with transaction.atomic():
            led_to = begin_form(key=key, now=timezone.now())
            if led_to is not None:
                messages.info(request, say(SAID))
                return HttpResponseRedirect(led_to)
            answer = view(request, *words, **named)
            if 300 <= answer.status_code < 400 and not _refused(request):
                finish_form(key=key, led_to=answer.headers["Location"])
            else:
                drop_form(key=key)
        return answer


def _counts(request: HttpRequest, view: Callable[..., HttpResponseBase]) -> bool:
    """A whole form of somebody signed in; what htmx sends while one types may come as often as it likes."""
    name = request.resolver_match.url_name if request.resolver_match else None
    return (
        request.method == "POST"
        and TOKEN in request.POST
        and "HX-Request" not in request.headers
        and getattr(view, "login_required", True)
        and name not in APART
    )


def _refused(request: HttpRequest) -> bool:
    """Whether the page that it leads to will say why nothing was done."""
    told = cast(BaseStorage, get_messages(request))
    refused = any(each.level >= messages.ERROR for each in told)
    told.used = False  # They were looked at, and are still to be shown.
    return refused


def key_of(request: HttpRequest) -> str:
    """The same for the same page, address, words and files."""
    found = hashlib.sha256()
    for part in _parts(request):
        found.update(len(part).to_bytes(8))
        found.update(part)
    return found.hexdigest()


def _parts(request: HttpRequest) -> Iterator[bytes]:
    yield request.get_full_path().encode()
    for name, values in sorted(request.POST.lists()):
        for value in values:
            yield name.encode()
            yield value.encode("utf-8", "surrogatepass")
    for name, files in sorted(request.FILES.lists()):
        for file in files:
            yield name.encode()
            yield (file.name or "").encode("utf-8", "surrogatepass")
            yield from file.chunks()
            file.seek(0)
