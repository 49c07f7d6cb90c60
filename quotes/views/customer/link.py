"""The key to the customer's page: a link that works, whoever holds it.

The address is the key: 128 random bits that nobody can guess. No cookie gives any right here, so a page
elsewhere could post only if it knew the address already; that is why no cross-site token is asked for.
It could not be: the address must not leak, so the page sends no referrer, and a browser that sends none
marks its posts as coming from nowhere.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone, translation
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt

from catalogue.models.file_store import FileTrouble
from quotes.actions.audit.who import a_customer, acting_as
from quotes.models import Acceptance, Link, Quote, Revision
from quotes.queries.sheets import language_of
from quotes.views.every_request.out_of_order import trouble_with
from quotes.views.every_request.wrong_links import asked_too_often, note_wrong_link


@dataclass(frozen=True, slots=True)
class OpenedLink:
    """A working link with the revision that it shows: always the latest."""

    token: str
    link: Link
    revision: Revision

    @property
    def quote(self) -> Quote:
        return self.link.quote

    @property
    def acceptance(self) -> Acceptance | None:
        return self.quote.acceptance if self.quote.accepted_at is not None else None

    def address(self, name: str) -> str:
        return reverse(name, args=[self.token])


log = logging.getLogger(__name__)
LinkView = Callable[..., HttpResponse]
"""Takes the request, what was opened, and what else stands in the address."""
TokenView = Callable[..., HttpResponse]
"""Takes the request, the token, and what else stands in the address."""


def by_link(view: LinkView) -> TokenView:
    """Open a working link; any other gets one and the same page that gives nothing away (404).

    Who has tried many that do not open waits, and is told no more than that (429). The page speaks the
    language of the sheet.
    """

    @wraps(view)
    def opened(request: HttpRequest, token: str, **more: Any) -> HttpResponse:
        answer = asked_too_often(request) or _answer(view, request, token, **more)
        answer["Referrer-Policy"] = "no-referrer"
        answer["X-Robots-Tag"] = "noindex, nofollow"
        return answer

    guarded: TokenView = login_not_required(csrf_exempt(never_cache(opened)))
    return guarded


def _answer(view: LinkView, request: HttpRequest, token: str, **more: Any) -> HttpResponse:
    link = Link.objects.by_token(token).working(timezone.now()).first()
    if link is None or link.quote.latest is None:
        note_wrong_link(request)
        return render(request, "quotes/customer_gone.html", status=404)
    with translation.override(language_of(link.quote.latest)), acting_as(lambda: a_customer(link)):
        try:
            return view(request, OpenedLink(token, link, link.quote.latest), **more)
        except FileTrouble as trouble:
            log.error("A customer was not shown his file: %s", trouble)
            return _without_file(request, token, trouble)


def _without_file(request: HttpRequest, token: str, trouble: FileTrouble) -> HttpResponse:
    kind = trouble_with(trouble)
    told = {"trouble": kind.code, "file": trouble.file, "page": reverse("customer-quote", args=[token])}
    return render(request, "quotes/customer_file.html", told, status=kind.status)


def posted(view: LinkView) -> LinkView:
    """For what is sent by a form; who comes by the address alone is shown the quote."""

    @wraps(view)
    def sent(request: HttpRequest, opened: OpenedLink, **more: Any) -> HttpResponse:
        if request.method != "POST":
            return redirect(opened.address("customer-quote"))
        return view(request, opened, **more)

    return sent
