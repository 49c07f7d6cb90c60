"""Who is let into a page, and what every signed-in page's head shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.urls import reverse
from django.utils.functional import SimpleLazyObject

from catalogue.calc.said import say, to_say
from quotes.models import Workshop
from quotes.queries.people import in_words, name_of, roles_of
from quotes.queries.rights import Who, may_open, right_to
from quotes.queries.sample import is_loaded

SAFE = ("GET", "HEAD", "OPTIONS")


def insist(request: HttpRequest) -> None:
    """Refuse the page to who has no right to it: others get the page that says whom to ask (403)."""
    page, post = _page(request), request.method not in SAFE
    if not may_open(request.user, page, post=post):
        raise PermissionDenied(whose(right_to(page, post=post)))


def whose(who: Who) -> str:
    """Roles in words, for who asks whom to ask."""
    return in_words(who) if isinstance(who, frozenset) else ""


def _page(request: HttpRequest) -> str:
    return request.resolver_match.view_name if request.resolver_match else ""


@dataclass(frozen=True, slots=True)
class SheetName:
    """One name in the head of the page."""

    label: str
    url: str
    present: bool


_SHEETS = (
    (to_say("Today"), "home"),
    (to_say("Quotes"), "quote-list"),
    (to_say("Enquiries"), "enquiry-list"),
    (to_say("Customers"), "customer-list"),
    (to_say("Engines"), "engine-list"),
    (to_say("Bench"), "bench"),
    (to_say("Invoices"), "invoice-list"),
    (to_say("Books"), "books-home"),
    (to_say("Catalogue"), "catalogue:home"),
    (to_say("Lives"), "lives"),
    (to_say("Settings"), "settings"),
)
"""Label, and the address's name."""
_ALSO = {"invoice-list": ("/payments/",)}
"""Addresses outside its own that belong to a sheet."""


def sheet_names(request: HttpRequest) -> list[SheetName]:
    """The sheets that this person may open, with the present one marked by its address."""
    shown = []
    for label, name in _SHEETS:
        if may_open(request.user, name):
            url = reverse(name)
            within = (url, *_ALSO.get(name, ()))
            present = request.path == url if url == "/" else request.path.startswith(within)
            shown.append(SheetName(say(label), url, present))
    return shown


def _site(request: HttpRequest) -> dict[str, Any]:
    signed_in = request.user.is_authenticated
    workshop = Workshop.objects.get_or_default()
    return {
        "workshop": workshop,
        "sample": signed_in and is_loaded(workshop),
        "sheets": sheet_names(request) if signed_in else [],
        "roles": roles_of(request.user),
        "person": name_of(request.user),
    }


def site(request: HttpRequest) -> dict[str, Any]:
    """Context of every template: `site.workshop`, `site.sheets`, `site.roles`, `site.person`, `site.sample`.

    Read from the database only where a template asks, so the customer's page and parts pay nothing.
    """
    return {"site": SimpleLazyObject(lambda: _site(request))}
