"""Who may open which page, and what every signed-in page's head shows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import update_wrapper
from typing import Any, Concatenate, ParamSpec

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.urls import reverse
from django.utils.functional import SimpleLazyObject

from quotes.models import Workshop
from quotes.queries.people import Role, name_of, roles_of

Given = ParamSpec("Given")
View = Callable[Concatenate[HttpRequest, Given], HttpResponseBase]


def role_required(*allowed: Role) -> Callable[[View[Given]], View[Given]]:
    """Let in who has one of these roles; others get the page that says whom to ask (403).

    The roles stand on the view as `allowed`, so that a link is shown to those who may follow it.
    """

    def wrap(view: View[Given]) -> View[Given]:
        def guarded(request: HttpRequest, /, *args: Given.args, **kwargs: Given.kwargs) -> HttpResponseBase:
            if not roles_of(request.user) & set(allowed):
                raise PermissionDenied(" or ".join(allowed))
            return view(request, *args, **kwargs)

        told = update_wrapper(guarded, view)
        vars(told)["allowed"] = frozenset(allowed)
        return told

    return wrap


@dataclass(frozen=True, slots=True)
class SheetName:
    """One name in the head of the page."""

    label: str
    url: str
    present: bool


_SHEETS: tuple[tuple[str, str, frozenset[str] | None], ...] = (
    ("Today", "home", None),
    ("Quotes", "quote-list", None),
    ("Enquiries", "enquiry-list", frozenset({"desk", "owner"})),
    ("Customers", "customer-list", frozenset({"desk", "builder", "owner"})),
    ("Engines", "engine-list", frozenset({"desk", "builder", "owner"})),
    ("Bench", "bench", None),
    ("Invoices", "invoice-list", frozenset({"desk", "books", "owner"})),
    ("Books", "books-home", frozenset({"books", "owner"})),
    ("Catalogue", "catalogue:home", None),
    ("Lives", "lives", frozenset({"builder", "owner"})),
    ("Settings", "settings", frozenset({"owner"})),
)
"""Label, the address's name, and who sees it (None: everybody)."""
_ALSO = {"invoice-list": ("/payments/",)}
"""Addresses outside its own that belong to a sheet."""


def sheet_names(request: HttpRequest) -> list[SheetName]:
    """The sheets that this person may open, with the present one marked by its address."""
    roles = roles_of(request.user)
    shown = []
    for label, name, audience in _SHEETS:
        if audience is None or roles & audience:
            url = reverse(name)
            within = (url, *_ALSO.get(name, ()))
            present = request.path == url if url == "/" else request.path.startswith(within)
            shown.append(SheetName(label, url, present))
    return shown


def _site(request: HttpRequest) -> dict[str, Any]:
    signed_in = request.user.is_authenticated
    return {
        "workshop": Workshop.objects.get_or_default(),
        "sheets": sheet_names(request) if signed_in else [],
        "roles": roles_of(request.user),
        "person": name_of(request.user),
    }


def site(request: HttpRequest) -> dict[str, Any]:
    """Context of every template: `site.workshop`, `site.sheets`, `site.roles`, `site.person`.

    Read from the database only where a template asks, so the customer's page and parts pay nothing.
    """
    return {"site": SimpleLazyObject(lambda: _site(request))}
