"""Advice that the customer does not take, written down at the bench."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.forms.bench.intake import Keyed
from quotes.forms.figures import Choice, Line, Picked

SIGNED = to_say("In writing, signed")
BY_TELEPHONE = to_say("By telephone")


class AdviceForm(Keyed):
    """What was advised, what may come of it, and who said no and how."""

    words = Line(_("What was advised?"), 300, required=True)
    component = Choice(label=_("Which part is it about?"), required=False)
    risk = Line(_("What may happen if it is left?"), 500, rows=2)
    rider_safety = forms.BooleanField(
        label=_("It bears on the rider's safety: it can lock the rear wheel or oil the tyre"), required=False
    )
    said_by = Line(_("Who says no? Full name"), 200, required=True)
    how = Picked(
        label=_("How?"),
        choices=[
            ("", _("choose")),
            (SIGNED, _("in writing, signed")),
            ("By message", _("by message")),
            (BY_TELEPHONE, _("by telephone")),
            ("Here in the workshop", _("here in the workshop")),
        ],
    )
    called = Line(_("Number called, if by telephone"), 40)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["words"].error_messages["required"] = say("Nothing is given: say what was advised.")
        self.fields["said_by"].error_messages["required"] = say("Nothing is given: write the full name.")

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        if told.get("how") == BY_TELEPHONE and not told.get("called"):
            self.add_error("called", say("Nothing is given: write the number that was called."))
        return told

    def said(self) -> dict[str, Any]:
        """What is kept, with the number in the words of how it was said."""
        told = {name: value for name, value in self.cleaned_data.items() if name not in ("called", "key")}
        if told["how"] == BY_TELEPHONE:
            told["how"] = f"{BY_TELEPHONE}, {self.cleaned_data['called']}"
        return told
