"""The sign-in card."""

from __future__ import annotations

from django.contrib.auth.forms import AuthenticationForm


class SignInForm(AuthenticationForm):
    """Django's own, with a plain sentence for a wrong pair."""

    error_messages = {
        "invalid_login": ("This name and password do not belong together. Capitals count in both."),
        "inactive": "This sign-in has been closed. Ask the owner.",
    }
