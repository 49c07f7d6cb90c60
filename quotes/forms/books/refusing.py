"""Putting what an action refuses at the field that it is about."""

from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError

from quotes.actions.refused import Refused


def refuse(form: forms.BaseForm, wrong: Refused | ValidationError, field: str | None = None) -> None:
    """At its own field where it names one that the form has, else at `field`, else at the head."""
    if isinstance(wrong, Refused):
        form.add_error(field, str(wrong))
    elif hasattr(wrong, "error_dict"):
        for name, said in wrong.message_dict.items():
            form.add_error(name if name in form.fields else field, said[0])
    else:
        form.add_error(field, wrong.messages[0])
