"""In which language a page is shown: the one chosen with the browser in hand, or the site's."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.urls import path
from django.utils import translation
from django.views.i18n import set_language


class LanguageMiddleware:
    """What a browser asks for by itself is not heard: everybody at one desk would see another page."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        with translation.override(chosen(request)):
            return self.get_response(request)


def chosen(request: HttpRequest) -> str:
    """The language of the cookie where it is one of ours."""
    asked = request.COOKIES.get(settings.LANGUAGE_COOKIE_NAME, "")
    return asked if asked in dict(settings.LANGUAGES) else settings.LANGUAGE_CODE


urlpatterns = [path("language/", login_not_required(set_language), name="language")]
