"""Wrong links from one address: after so many it has to wait, whatever it tries."""

from __future__ import annotations

import math
from datetime import timedelta

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from quotes.actions.allowances import OnlySoOften, count, used_up
from quotes.views.every_request.address import client_address

WRONG_LINKS = OnlySoOften("wrong links", 30, timedelta(minutes=15))


def asked_too_often(request: HttpRequest) -> HttpResponse | None:
    """The page that asks to wait (429), for right links and wrong ones alike; none where nobody needs to."""
    now = timezone.now()
    until = used_up(WRONG_LINKS, who=client_address(request), now=now)
    if until is None:
        return None
    seconds = max(1, math.ceil((until - now).total_seconds()))
    page = render(request, "quotes/customer_wait.html", {"minutes": math.ceil(seconds / 60)}, status=429)
    page["Retry-After"] = str(seconds)
    return page


def note_wrong_link(request: HttpRequest) -> None:
    """One more link from there that opened nothing."""
    count(WRONG_LINKS, who=client_address(request), now=timezone.now())
