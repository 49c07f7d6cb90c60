"""A person's own sign-in: where it is open, its password, its mail address."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say, say_count
from quotes.actions.sign_ins import change_password
from quotes.actions.signed_in import end_other_sign_ins, end_sign_in
from quotes.actions.ways_back import keep_mail
from quotes.calc.browser_words import browser_in_words
from quotes.forms.sign_in import MailForm, PasswordForm
from quotes.queries.codes import has_codes
from quotes.queries.sign_ins import sign_ins_of
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.signed_in import note_sign_in


def idle_in_words() -> str:
    """How long a sign-in may be left."""
    minutes = round(settings.SESSION_IDLE.total_seconds() / 60)
    if minutes % 60:
        return say_count("{count} minute", "{count} minutes", minutes)
    return say("an hour") if minutes == 60 else say_count("{count} hour", "{count} hours", minutes // 60)


@require_safe
def own_sign_in(request: HttpRequest) -> HttpResponse:
    """Where the person is signed in, and the card for another password."""
    return _page(request)


def _mail_form(request: HttpRequest, data: QueryDict | None = None) -> MailForm:
    user = signed_in(request)
    return MailForm(request, user, data, auto_id="mail_%s", initial={"mail": user.email})


def _page(
    request: HttpRequest,
    *,
    form: PasswordForm | None = None,
    mail_form: MailForm | None = None,
) -> HttpResponse:
    now, user = timezone.now(), signed_in(request)
    rows = sign_ins_of(
        user,
        session_key=request.session.session_key,
        now=now,
        used_after=now - settings.SESSION_IDLE,
    )
    context = {
        "rows": rows,
        "others": any(not row.present for row in rows),
        "idle": idle_in_words(),
        "has_codes": has_codes(user),
        "form": form or PasswordForm(request, user),
        "mail_form": mail_form or _mail_form(request),
    }
    return render(request, "quotes/sign_in_own.html", context)


@require_POST
@sensitive_post_parameters()
def new_password(request: HttpRequest) -> HttpResponse:
    """Keeps another password; whoever is signed in elsewhere with the old one is signed in no more."""
    user = signed_in(request)
    form = PasswordForm(request, user, request.POST)
    if not form.is_valid():
        return _page(request, form=form)
    change_password(user=user, password=form.cleaned_data["new"], session_key=request.session.session_key)
    # It gives the session another key, so the row of the old one has gone.
    update_session_auth_hash(request, user)
    note_sign_in(request, timezone.now())
    messages.success(request, say("The new password is kept. Everywhere else you are signed out."))
    return redirect("own-sign-in")


@require_POST
@sensitive_post_parameters()
def own_mail(request: HttpRequest) -> HttpResponse:
    """Keeps where a way back in is sent to."""
    form = _mail_form(request, request.POST)
    if not form.is_valid():
        return _page(request, mail_form=form)
    keep_mail(user=signed_in(request), mail=form.cleaned_data["mail"])
    messages.success(request, say("The mail address is kept."))
    return redirect("own-sign-in")


@require_POST
def end_one(request: HttpRequest, pk: int) -> HttpResponse:
    """Ends one session of the person's own; nobody learns of others'."""
    browser = end_sign_in(user=signed_in(request), pk=pk)
    if browser is None:
        raise Http404
    messages.success(request, say("Ended: {browser}.", browser=browser_in_words(browser)))
    return redirect("own-sign-in")


@require_POST
def end_others(request: HttpRequest) -> HttpResponse:
    """Ends all but the present one."""
    count = end_other_sign_ins(user=signed_in(request), session_key=request.session.session_key)
    messages.success(request, say("{count} ended. This one goes on.", count=count))
    return redirect("own-sign-in")


urlpatterns = [
    path("your-sign-in/", own_sign_in, name="own-sign-in"),
    path("your-sign-in/password/", new_password, name="new-password"),
    path("your-sign-in/mail/", own_mail, name="own-mail"),
    path("your-sign-in/end/<int:pk>/", end_one, name="end-sign-in"),
    path("your-sign-in/end-others/", end_others, name="end-other-sign-ins"),
]
