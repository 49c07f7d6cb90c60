"""The sign-in card, and those for a new password and a mail address."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib.auth import authenticate
from django.contrib.auth.forms import AuthenticationForm, PasswordResetForm
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.mail import EmailMessage
from django.http import HttpRequest
from django.template.loader import render_to_string
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.actions.mailing import send_beside

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

LONGEST = 128
"""Characters of a password: a sentence fits, and none takes long to hash."""


class SignInForm(AuthenticationForm):
    """Django's own, with a plain sentence for a wrong pair."""

    error_messages = {
        "invalid_login": _("This name and password do not belong together. Capitals count in both."),
        "inactive": _("This sign-in has been closed. Ask the owner."),
    }

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["username"].label = _("Your sign-in name")
        self.fields["password"].label = _("Password")


def _password_field(
    label: StrOrPromise, *, now: bool = False, help_text: StrOrPromise = ""
) -> forms.CharField:
    kept = "current-password" if now else "new-password"
    return forms.CharField(
        label=label,
        strip=False,
        max_length=None if now else LONGEST,
        help_text=help_text,
        widget=forms.PasswordInput(attrs={"autocomplete": kept}),
        error_messages={"required": _("This is needed.")},
    )


class NewPasswordForm(forms.Form):
    """A new password, typed twice."""

    new = _password_field(
        _("The new one"), help_text=_("At least 10 characters, and none that many people use.")
    )
    again = _password_field(_("The new one again"))

    def __init__(self, user: User, *args: Any, **options: Any) -> None:
        self.user = user
        super().__init__(*args, **options)

    def clean_new(self) -> str:
        typed = str(self.cleaned_data["new"])
        validate_password(typed, self.user)
        return typed

    def clean_again(self) -> str:
        typed = str(self.cleaned_data["again"])
        if "new" in self.cleaned_data and typed != self.cleaned_data["new"]:
            raise ValidationError(say("This is not the same as the new one above."))
        return typed


class OwnPasswordForm(forms.Form):
    """What is changed by its owner only: the password he has is asked for, and wrong ones are counted."""

    password = _password_field(_("The password you have"), now=True)

    def __init__(self, request: HttpRequest, user: User, *args: Any, **options: Any) -> None:
        self.request, self.user = request, user
        forms.Form.__init__(self, *args, **options)

    def clean_password(self) -> str:
        typed = str(self.cleaned_data["password"])
        if authenticate(self.request, username=self.user.get_username(), password=typed) is None:
            raise ValidationError(say("This is not the password you have. Capitals count."))
        return typed


class PasswordForm(OwnPasswordForm, NewPasswordForm):
    """Another password for who is signed in."""

    field_order = ["password", "new", "again"]

    def clean_new(self) -> str:
        if self.cleaned_data["new"] == self.cleaned_data.get("password"):
            raise ValidationError(say("This is the password you have."))
        return super().clean_new()


class MailForm(OwnPasswordForm):
    """Where a way back in is sent to."""

    mail = forms.EmailField(
        label=_("Mail address"),
        max_length=254,
        required=False,
        help_text=_("Where a link is sent when you have forgotten the password. Empty for nowhere."),
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        error_messages={"invalid": _("This is no mail address: name@host.example is wanted.")},
    )
    field_order = ["mail", "password"]


class CodeForm(forms.Form):
    """A one-time code, or one kept in reserve."""

    WRONG = _(
        "This code is not right, was used before, or came too soon after a wrong one: wait for the next code."
    )
    code = forms.CharField(
        label=_("Code"),
        max_length=40,
        help_text=_("Six digits from your telephone."),
        widget=forms.TextInput(attrs={"autocomplete": "one-time-code", "autofocus": True}),
        error_messages={"required": _("This is needed.")},
    )


class ForgottenForm(PasswordResetForm):
    """Asks for the mail address of who has forgotten the password."""

    email = forms.EmailField(
        label=_("Your mail address"),
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        error_messages={
            "required": _("This is needed."),
            "invalid": _("This is no mail address: name@host.example is wanted."),
        },
    )

    def send_mail(
        self,
        subject_template_name: str,
        email_template_name: str,
        context: dict[str, Any],
        from_email: str | None,
        to_email: str,
        html_email_template_name: str | None = None,
    ) -> None:
        subject = " ".join(render_to_string(subject_template_name, context).split())
        text = render_to_string(email_template_name, context)
        send_beside(EmailMessage(subject, text, from_email, [to_email]))
