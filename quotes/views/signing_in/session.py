"""Signing in and out."""

from __future__ import annotations

import math
from typing import Any

from django.conf import settings
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.views import LoginView, LogoutView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone

from quotes.forms.sign_in import SignInForm
from quotes.queries.codes import has_codes, must_have_codes
from quotes.queries.sign_ins import paused_until
from quotes.views.every_request.address import client_address
from quotes.views.every_request.signed_in import begin
from quotes.views.signing_in.half_way import wait_for_code


def paused(request: HttpRequest, response: HttpResponse, credentials: dict[str, Any] | None) -> HttpResponse:
    """Too many wrong passwords: the same page whether or not anybody has that name."""
    name, now = (credentials or {}).get("username"), timezone.now()
    until = paused_until(
        name=name, address=client_address(request), pause=settings.AXES_COOLOFF_TIME, now=now
    )
    seconds = max(1, math.ceil((until - now).total_seconds()))
    context = {"until": until, "minutes": math.ceil(seconds / 60), "next": request.POST.get("next", "")}
    page = render(request, "quotes/sign_in_paused.html", context, status=429)
    page["Retry-After"] = str(seconds)
    return page


class SignInView(LoginView):
    """Django's own; a code may be asked for next, and who signs in is noted, to be seen among his own."""

    template_name = "quotes/sign_in.html"
    authentication_form = SignInForm
    redirect_authenticated_user = True

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        user = form.get_user()
        if has_codes(user) or must_have_codes(user, required=settings.REQUIRE_CODES):
            wait_for_code(self.request, user, self.get_success_url())
            return redirect("code")
        response = super().form_valid(form)
        begin(self.request)
        return response


class SignOutView(LogoutView):
    """Django's own; the browser forgets the pages that it kept for going back."""

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        response: HttpResponse = super().post(request, *args, **kwargs)
        response["Clear-Site-Data"] = '"cache"'
        return response


urlpatterns = [
    path("sign-in/", SignInView.as_view(), name="sign-in"),
    path("sign-out/", SignOutView.as_view(), name="sign-out"),
]
