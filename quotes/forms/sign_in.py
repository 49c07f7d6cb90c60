"""The sign-in card, and the card for a new password."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth import authenticate
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.http import HttpRequest

LONGEST = 128
"""Characters of a password: a sentence fits, and none takes long to hash."""


class SignInForm(AuthenticationForm):
    """Django's own, with a plain sentence for a wrong pair."""

    error_messages = {
        "invalid_login": ("This name and password do not belong together. Capitals count in both."),
        "inactive": "This sign-in has been closed. Ask the owner.",
    }


def _password_field(label: str, *, now: bool = False, help_text: str = "") -> forms.CharField:
    kept = "current-password" if now else "new-password"
    return forms.CharField(
        label=label,
        strip=False,
        max_length=None if now else LONGEST,
        help_text=help_text,
        widget=forms.PasswordInput(attrs={"autocomplete": kept}),
        error_messages={"required": "This is needed."},
    )


class PasswordForm(forms.Form):
    """A new password for who is signed in. The one he has is asked for, and wrong ones are counted."""

    password = _password_field("The password you have", now=True)
    new = _password_field(
        "The new one", help_text="At least 10 characters, and not one that many people use."
    )
    again = _password_field("The new one again")

    def __init__(self, request: HttpRequest, user: User, *args: Any, **options: Any) -> None:
        self.request, self.user = request, user
        super().__init__(*args, **options)

    def clean_password(self) -> str:
        typed = str(self.cleaned_data["password"])
        if authenticate(self.request, username=self.user.get_username(), password=typed) is None:
            raise ValidationError("This is not the password you have. Capitals count.")
        return typed

    def clean_new(self) -> str:
        typed = str(self.cleaned_data["new"])
        if typed == self.cleaned_data.get("password"):
            raise ValidationError("This is the password you have.")
        validate_password(typed, self.user)
        return typed

    def clean_again(self) -> str:
        typed = str(self.cleaned_data["again"])
        if "new" in self.cleaned_data and typed != self.cleaned_data["new"]:
            raise ValidationError("This is not the same as the new one above.")
        return typed
