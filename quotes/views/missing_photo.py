"""A photo that can't be had: a drawn one in its place says so, and the page around it stands."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from catalogue.models.file_store import FileTrouble
from quotes.views.every_request.out_of_order import trouble_with

SVG = "image/svg+xml; charset=utf-8"
Answer = TypeVar("Answer", HttpResponse, HttpResponseBase)
log = logging.getLogger(__name__)


def drawn_where_missing(view: Callable[..., Answer]) -> Callable[..., Answer]:
    """For a view that serves a photo: browsers show what is drawn whatever the status is."""

    @wraps(view)
    def shown(request: HttpRequest, *given: Any, **more: Any) -> Answer:
        try:
            return view(request, *given, **more)
        except FileTrouble as trouble:
            log.error("A photo was not shown: %s", trouble)
            return _drawn(request, trouble)

    return shown


def _drawn(request: HttpRequest, trouble: FileTrouble) -> HttpResponse:
    kind, match = trouble_with(trouble), request.resolver_match
    told = {"trouble": kind.code, "customer": match is not None and "token" in match.kwargs}
    answer = render(request, "quotes/missing_photo.svg", told, content_type=SVG, status=kind.status)
    answer["Cache-Control"] = "no-store"
    answer["X-Content-Type-Options"] = "nosniff"
    return answer
