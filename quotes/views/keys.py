"""The page of keys: what the reader may open, with the keys that open it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from quotes.calc.keys import KEY_GROUPS


@require_safe
def keys(request: HttpRequest) -> HttpResponse:
    """Every key; the script takes the list out of this page, so that there is one."""
    return render(request, "quotes/keys.html", {"groups": [group.said() for group in KEY_GROUPS]})


urlpatterns = [path("keys/", keys, name="keys")]
