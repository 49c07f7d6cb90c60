"""On whose account a request changes the record."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest
from django.http.response import HttpResponseBase

from quotes.actions.audit.who import a_person, acting_as


class ActingMiddleware:
    """All that a request changes is on the account of who is signed in; a customer's link says so itself."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        with acting_as(lambda: a_person(request.user)):
            return self.get_response(request)
