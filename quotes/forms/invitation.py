"""The owner's card for a new person, and that person's own."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.sign_in import NewPasswordForm
from quotes.queries.people import ROLES

WHAT_EACH_DOES = {
    "desk": _("desk: quotes, customers, bookings, invoices"),
    "builder": _("builder: the bench, its records and hours"),
    "books": _("books: invoices, payments, the accounts"),
    "owner": _("owner: everything, with prices and settings"),
}


class InvitationForm(forms.Form):
    """Who is asked to join, as what, and where the link goes."""

    name = forms.CharField(
        label=_("Name"),
        max_length=150,
        help_text=_("As it is to stand on papers and in the record."),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": _("This is needed.")},
    )
    role = forms.ChoiceField(
        label=_("Role"),
        choices=[("", _("choose")), *((role, WHAT_EACH_DOES[role]) for role in ROLES)],
        error_messages={"required": _("Choose one.")},
    )
    mail = forms.EmailField(
        label=_("Mail address"),
        max_length=254,
        help_text=_("The link is sent there. It opens once, within three days."),
        widget=forms.EmailInput(attrs={"autocomplete": "off"}),
        error_messages={
            "required": _("This is needed."),
            "invalid": _("This is no mail address: name@host.example is wanted."),
        },
    )


class InvitedForm(NewPasswordForm):
    """A sign-in name and a password, both the person's own choice."""

    name = forms.CharField(
        label=_("Sign-in name"),
        max_length=150,
        help_text=_("What you type to sign in: letters, digits and @ . + - _"),
        widget=forms.TextInput(attrs={"autocomplete": "username"}),
        error_messages={"required": _("This is needed.")},
    )
    field_order = ["name", "new", "again"]

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(User(), *args, **options)
        self.fields["new"].label, self.fields["again"].label = say("Password"), say("The same again")

    def clean_name(self) -> str:
        typed = str(self.cleaned_data["name"])
        User._meta.get_field("username").run_validators(typed)
        if User.objects.filter(username__iexact=typed).exists():
            raise ValidationError(say("“{typed}” is taken: choose another.", typed=typed))
        return typed
