"""What comes after the sign-in has ended: it is not taken, and not lost."""

from __future__ import annotations

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.template.loader import render_to_string

from quotes.views.every_request.hand_back import handed_back

REFUSED = 403


def was_signed_in(request: HttpRequest) -> bool:
    """Whether something that was typed, or a part of a page, comes from where somebody was signed in."""
    waits = request.method == "POST" or "HX-Request" in request.headers
    return waits and settings.SESSION_COOKIE_NAME in request.COOKIES


def signed_out(request: HttpRequest) -> HttpResponse:
    """The page in the place of the sign-in: what was typed would be gone behind that."""
    return _page("ended", handed_back(request))


def not_from_here(request: HttpRequest, reason: str = "") -> HttpResponse:
    """In the place of Django's page about a token that does not fit, as after signing in anew.

    A page of another site can't send on somebody's behalf: only what a browser says came from here is handed
    back with a token that fits, and even that waits for a press.
    """
    own = request.headers.get("Origin") == f"{request.scheme}://{request.get_host()}"
    return _page(
        "older" if own else "elsewhere", handed_back(request, token=get_token(request)) if own else {}
    )


def _page(why: str, told: dict[str, object]) -> HttpResponse:
    answer = HttpResponse(render_to_string("sent_late.html", {"why": why, **told}), status=REFUSED)
    answer["Cache-Control"] = "no-store"
    return answer
