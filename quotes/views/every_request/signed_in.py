"""A session ends when it is left idle, and at the end of the day at the latest."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import logout
from django.contrib.auth.middleware import LoginRequiredMiddleware
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.signed_in import begin_sign_in, note_use
from quotes.views.every_request.access import insist
from quotes.views.every_request.address import client_address
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.sent_late import signed_out, was_signed_in

USED = "last_used"
"""Where the session keeps when it was last used."""
NOTED_EVERY = timedelta(minutes=5)
"""So that a page costs no write: a session may end that much sooner than its idle time says."""


def begin(request: HttpRequest) -> None:
    """Note the sign-in that has just been made. However much it is used, it ends after SESSION_COOKIE_AGE."""
    now = timezone.now()
    request.session.set_expiry(now + timedelta(seconds=settings.SESSION_COOKIE_AGE))
    request.session[USED] = now.isoformat()
    note_sign_in(request, now)


def note_sign_in(request: HttpRequest, now: datetime) -> None:
    """Put the present session among the person's sign-ins."""
    assert request.session.session_key is not None
    begin_sign_in(
        user=signed_in(request),
        session_key=request.session.session_key,
        browser=request.headers.get("User-Agent", ""),
        address=client_address(request),
        now=now,
        used_after=now - settings.SESSION_IDLE,
    )


class SignedInMiddleware(LoginRequiredMiddleware):
    """Django's own, which asks every page but the open ones for a sign-in; one left idle counts no more.

    Who is signed in is let into what his roles have a right to.
    """

    def process_view(
        self,
        request: HttpRequest,
        view_func: Callable[..., HttpResponseBase],
        view_args: tuple[Any, ...],
        view_kwargs: dict[str, Any],
    ) -> HttpResponseBase | None:
        asks = getattr(view_func, "login_required", True)
        if asks:
            _end_where_idle(request)
        answer = super().process_view(request, view_func, view_args, view_kwargs)
        if asks and answer is None:
            insist(request)
        return answer

    def handle_no_permission(  # type: ignore[override]  # Django's stub knows the redirect only
        self, request: HttpRequest, view_func: Callable[..., HttpResponseBase]
    ) -> HttpResponseBase:
        """What was typed before the sign-in ended is not lost behind the page of signing in."""
        if was_signed_in(request):
            return signed_out(request)
        return super().handle_no_permission(request, view_func)


def _end_where_idle(request: HttpRequest) -> None:
    used, now = request.session.get(USED), timezone.now()
    if used is None:
        return
    away = now - datetime.fromisoformat(used)
    if away > settings.SESSION_IDLE:
        logout(request)
        messages.info(request, say("You were away for a while, so this sign-in has ended."))
    elif away > NOTED_EVERY:
        request.session[USED] = now.isoformat()
        note_use(session_key=request.session.session_key or "", now=now)
