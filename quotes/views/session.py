"""Signing in and out."""

from __future__ import annotations

from django.contrib.auth.views import LoginView, LogoutView
from django.urls import path

from quotes.forms.sign_in import SignInForm

urlpatterns = [
    path(
        "sign-in/",
        LoginView.as_view(
            template_name="quotes/sign_in.html",
            authentication_form=SignInForm,
            redirect_authenticated_user=True,
        ),
        name="sign-in",
    ),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
]
