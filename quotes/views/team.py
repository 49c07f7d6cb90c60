"""The people of the workshop: who signs in, who is asked to, whose sign-in is closed."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.core.mail import EmailMessage
from django.db.transaction import on_commit
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.invitations import Invited, SentTooOften, invite, send_again, withdraw_invitation
from quotes.actions.mailing import send
from quotes.actions.refused import Refused
from quotes.actions.sign_ins import close_sign_in, open_sign_in
from quotes.forms.books.refusing import refuse
from quotes.forms.invitation import InvitationForm
from quotes.models import Invitation, Workshop
from quotes.queries.codes import MUST
from quotes.queries.people import in_words
from quotes.queries.team import members, open_invitations
from quotes.views.every_request.person import signed_in


@require_safe
def people(request: HttpRequest) -> HttpResponse:
    """Everybody with a sign-in, and the invitations that wait."""
    return _page(request, InvitationForm())


def _page(request: HttpRequest, form: InvitationForm, status: int = 200) -> HttpResponse:
    context = {
        "members": members(),
        "invitations": open_invitations(),
        "form": form,
        "now": timezone.now(),
        "must": in_words(MUST) if settings.REQUIRE_CODES else "",
    }
    return render(request, "quotes/team.html", context, status=status)


@require_POST
def invite_person(request: HttpRequest) -> HttpResponse:
    """Keeps an invitation and mails its link."""
    form = InvitationForm(request.POST)
    if not form.is_valid():
        return _page(request, form)
    try:
        made = invite(**form.cleaned_data, by=signed_in(request), now=timezone.now())
    except SentTooOften as often:
        form.add_error(None, _later(often))
        return _page(request, form)
    except ValidationError as wrong:
        refuse(form, wrong)
        return _page(request, form)
    on_commit(lambda: _mail(request, made))
    return redirect("people")


@require_POST
def send_invitation(request: HttpRequest, pk: int) -> HttpResponse:
    """Mails another link; the one before opens no more."""
    row = get_object_or_404(Invitation, pk=pk)
    try:
        made = send_again(invitation=row, by=signed_in(request), now=timezone.now())
    except SentTooOften as often:
        messages.error(request, _later(often))
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        on_commit(lambda: _mail(request, made))
    return redirect("people")


def _later(often: SentTooOften) -> str:
    return say("{often} Send it after {time}.", often=often, time=f"{timezone.localtime(often.until):%H:%M}")


def _mail(request: HttpRequest, made: Invited) -> None:
    """After the commit: a mail server that does not answer holds nobody up, and each link leads somewhere."""
    row, shop = made.invitation, Workshop.objects.get_or_default()
    context = {
        "invitation": row,
        "workshop": shop,
        "address": request.build_absolute_uri(reverse("invited", args=[made.token])),
    }
    subject = " ".join(render_to_string("quotes/invitation_mail_subject.txt", context).split())
    text = render_to_string("quotes/invitation_mail.txt", context)
    if send(EmailMessage(subject, text, None, [row.mail])):
        messages.success(request, say("The link is on its way to {mail}.", mail=row.mail))
    else:
        said = say("The mail to {mail} could not be sent. Send it again in a while.", mail=row.mail)
        messages.error(request, said)


@require_POST
def withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    """The link opens no more."""
    row = get_object_or_404(Invitation, pk=pk)
    if withdraw_invitation(invitation=row, now=timezone.now()):
        messages.success(request, say("The invitation of {name} is withdrawn.", name=row.name))
    return redirect("people")


@require_POST
def close(request: HttpRequest, pk: int) -> HttpResponse:
    """Lets a person in no more; what the person did stays under the name."""
    row = get_object_or_404(User, pk=pk)
    try:
        close_sign_in(user=row, by=signed_in(request))
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, say("{name} signs in no more.", name=row.get_username()))
    return redirect("people")


@require_POST
def open_again(request: HttpRequest, pk: int) -> HttpResponse:
    """Lets a person in again, with the password as it was."""
    row = get_object_or_404(User, pk=pk)
    open_sign_in(user=row)
    messages.success(request, say("{name} may sign in again.", name=row.get_username()))
    return redirect("people")


urlpatterns = [
    path("people/", people, name="people"),
    path("people/invite/", invite_person, name="people-invite"),
    path("people/invitations/<int:pk>/send/", send_invitation, name="invitation-send"),
    path("people/invitations/<int:pk>/withdraw/", withdraw, name="invitation-withdraw"),
    path("people/<int:pk>/close/", close, name="sign-in-close"),
    path("people/<int:pk>/open/", open_again, name="sign-in-open"),
]
