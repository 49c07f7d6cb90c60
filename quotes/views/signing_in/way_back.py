"""The way back in for who has forgotten the password: a link by mail, good once and for an hour."""

from __future__ import annotations

import math
from typing import Any

from django.contrib.auth.models import User
from django.contrib.auth.views import PasswordResetConfirmView, PasswordResetDoneView, PasswordResetView
from django.contrib.messages import success
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse_lazy
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.ways_back import AskedTooOften, come_back, note_ask
from quotes.forms.sign_in import ForgottenForm, NewPasswordForm
from quotes.models import Workshop
from quotes.views.every_request.address import client_address


class ForgottenView(PasswordResetView):
    """Asks for the mail address; the answer is the same whether or not anybody has it."""

    template_name = "quotes/sign_in_forgotten.html"
    form_class = ForgottenForm
    subject_template_name = "quotes/sign_in_mail_subject.txt"
    email_template_name = "quotes/sign_in_mail.txt"
    success_url = reverse_lazy("forgotten-sent")

    def form_valid(self, form: Any) -> HttpResponse:
        now = timezone.now()
        try:
            may_go = note_ask(mail=form.cleaned_data["email"], address=client_address(self.request), now=now)
        except AskedTooOften as refused:
            seconds = max(1, math.ceil((refused.until - now).total_seconds()))
            context = {"until": refused.until, "minutes": math.ceil(seconds / 60)}
            page = render(self.request, "quotes/sign_in_asked_often.html", context, status=429)
            page["Retry-After"] = str(seconds)
            return page
        self.extra_email_context = {"workshop": Workshop.objects.get_or_default()}
        return super().form_valid(form) if may_go else redirect(self.success_url)


class WayBackView(PasswordResetConfirmView):
    """Takes the new password where the link is good."""

    template_name = "quotes/sign_in_way_back.html"
    form_class = NewPasswordForm  # type: ignore[assignment]

    def form_valid(self, form: Any) -> HttpResponse:
        assert isinstance(self.user, User)
        come_back(user=self.user, password=form.cleaned_data["new"])
        self.request.session.flush()
        success(self.request, say("The new password is kept. Sign in with it."))
        return redirect("sign-in")


urlpatterns = [
    path("sign-in/forgotten/", ForgottenView.as_view(), name="forgotten"),
    path(
        "sign-in/forgotten/sent/",
        PasswordResetDoneView.as_view(template_name="quotes/sign_in_sent.html"),
        name="forgotten-sent",
    ),
    path("sign-in/new/<uidb64>/<token>/", WayBackView.as_view(), name="way-back"),
]
