"""What is typed about a price list: the day it holds from, how a supplier's lists are taken, and rates."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.fields import CardField, quoted
from quotes.forms.figures import Day, Figure, Line
from quotes.forms.seen import SeenForm

LONGEST_WAIT = timedelta(days=730)
LETTERS = 3


class CheckForm(forms.Form):
    """From which day the list holds, and whether it is all that the supplier has."""

    bound_field_class = CardField
    on = Day(_("In force from"))
    whole = forms.BooleanField(
        label=_("It lists all that the supplier has: what it leaves out is gone"), required=False
    )

    def __init__(self, *args: Any, today: date, **options: Any) -> None:
        super().__init__(*args, **options)
        self.today = today

    def clean_on(self) -> date:
        on: date = self.cleaned_data["on"]
        if not self.today - LONGEST_WAIT <= on <= self.today + LONGEST_WAIT:
            raise ValidationError(
                say("{typed} is more than two years away: a day nearer to today.", typed=quoted(on))
            )
        return on


class Currency(Line):
    """Three letters, or nothing."""

    def clean(self, value: Any) -> Any:
        text = str(super().clean(value)).strip().upper()
        if text and not (len(text) == LETTERS and text.isascii() and text.isalpha()):
            raise ValidationError(say("{typed} is not three letters, such as EUR.", typed=quoted(text)))
        return text


class ListTermsForm(SeenForm):
    """How one supplier's lists are taken."""

    currency = Currency(_("Lists are in"), 20, help_text=_("Three letters; empty is the catalogue's own."))
    jump_percent = Figure(_("Hold a price that moves by more than"), "0.1", "1000", 1, unit=_("per cent"))


class RateForm(forms.Form):
    """A rate from a day on."""

    bound_field_class = CardField
    currency = Currency(_("Currency"), 20, required=True)
    day = Day(_("Holds from"))
    rate = Figure(_("One unit of it costs"), "0.000001", "1000000", 8)
