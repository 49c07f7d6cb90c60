"""Who was invited sets the password: by a link that opens once, and nobody else ever knows it."""

from __future__ import annotations

from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from quotes.actions.invitations import take_invitation
from quotes.forms.invitation import InvitedForm
from quotes.models import Invitation, token_hash
from quotes.queries.codes import must_have_codes
from quotes.views.every_request.signed_in import begin
from quotes.views.every_request.wrong_links import asked_too_often, note_wrong_link
from quotes.views.signing_in.half_way import wait_for_code


@never_cache
@login_not_required
@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def invited(request: HttpRequest, token: str) -> HttpResponse:
    """Asks for a sign-in name and a password; a link that opens no more says only that."""
    if (until := asked_too_often(request)) is not None:
        return until
    row = Invitation.objects.working(timezone.now()).filter(token_hash=token_hash(token)).first()
    if row is None:
        return _gone(request)
    form = InvitedForm(request.POST or None, initial={"name": row.mail.partition("@")[0]})
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        user = take_invitation(
            token=token, sign_in_name=given["name"], password=given["new"], now=timezone.now()
        )
        return _in(request, user) if user else _gone(request)
    return render(request, "quotes/invited.html", {"invitation": row, "form": form})


def _gone(request: HttpRequest) -> HttpResponse:
    note_wrong_link(request)
    return render(request, "quotes/invited_gone.html", status=404)


def _in(request: HttpRequest, user: User) -> HttpResponse:
    """Signed in at once; who needs one-time codes sets them up first."""
    if must_have_codes(user, required=settings.REQUIRE_CODES):
        wait_for_code(request, user, reverse("home"))
        return redirect("code")
    request.session.flush()
    login(request, user, backend="django.contrib.auth.backends.ModelBackend")
    begin(request)
    return redirect("home")


urlpatterns = [path("invited/<str:token>/", invited, name="invited")]
