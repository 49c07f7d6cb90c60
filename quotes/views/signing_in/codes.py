"""One-time codes: asked after the password, set up, told in reserve."""

from __future__ import annotations

from base64 import b32encode

import segno
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from catalogue.calc.said import say
from quotes.actions.codes import CodesSealedOtherwise, begin_codes, confirm_codes, take_code
from quotes.forms.sign_in import CodeForm
from quotes.queries.codes import has_codes
from quotes.views.signing_in.half_way import finish, person_half_way, wrong_code


@never_cache
@login_not_required
@require_http_methods(["GET", "POST"])
def code(request: HttpRequest) -> HttpResponse:
    """Asks for the code of who has given the password."""
    user = person_half_way(request)
    if user is None:
        return redirect("sign-in")
    if not has_codes(user):
        return redirect("codes-set-up")
    form = CodeForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            if take_code(user=user, code=form.cleaned_data["code"]):
                return redirect(finish(request, user))
        except CodesSealedOtherwise as refused:
            form.add_error("code", str(refused))
            return render(request, "quotes/sign_in_code.html", {"form": form})
        if wrong_code(request):
            messages.info(request, say("Too many codes were wrong. Begin again with the password."))
            return redirect("sign-in")
        form.add_error("code", CodeForm.WRONG)
    return render(request, "quotes/sign_in_code.html", {"form": form})


@never_cache
@login_not_required
@require_http_methods(["GET", "POST"])
def set_up(request: HttpRequest) -> HttpResponse:
    """Shows the secret and asks for a first code. Who has codes already changes nothing here."""
    half_way = person_half_way(request)
    user = half_way or (request.user if isinstance(request.user, User) else None)
    if user is None:
        return redirect("sign-in")
    if has_codes(user):
        return redirect("code" if half_way else "own-sign-in")
    form = CodeForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        recovery = confirm_codes(user=user, code=form.cleaned_data["code"])
        if recovery:
            then = finish(request, user) if half_way else reverse("own-sign-in")
            return render(request, "quotes/sign_in_recovery.html", {"codes": recovery, "then": then})
        form.add_error("code", CodeForm.WRONG)
    device = begin_codes(user=user)
    key = b32encode(device.bin_key).decode()
    context = {
        "form": form,
        "picture": segno.make(device.config_url, micro=False).svg_data_uri(scale=4, light="#fff"),
        "key": " ".join(key[start : start + 4] for start in range(0, len(key), 4)),
    }
    return render(request, "quotes/sign_in_set_up.html", context)


urlpatterns = [
    path("sign-in/code/", code, name="code"),
    path("sign-in/code/set-up/", set_up, name="codes-set-up"),
]
